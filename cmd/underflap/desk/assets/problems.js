// Problems in plain words, each beside the field that causes it.

import {chosen} from './show.js';

const byId = id => document.getElementById(id);
const top = byId('problems');
let last = '';

// place is the control that a field stands behind, null when there is none on
// the page.
function place({field = '', param}) {
  const candidates = [byId(field), byId(field + '-width')];
  if (field === 'flap-depth') candidates.push(byId('flap-depth-own'));
  if (field === 'envelope') candidates.unshift(byId('envelope-other'));
  if (field === 'palette') candidates.push(byId('from-colour'), byId('suits'), byId('ground'));
  if (field === 'seed') candidates.push(byId('another'));
  const setting = name => byId(`set-${chosen('pattern')}-${name}`);
  candidates.push(setting(param || field));
  return candidates.find(e => e && e.type !== 'hidden' && !e.closest('[hidden]')) || null;
}

function clear() {
  for (const p of document.querySelectorAll('.problem')) p.remove();
  for (const e of document.querySelectorAll('[data-wrong]')) {
    delete e.dataset.wrong;
    e.removeAttribute('aria-invalid');
    const others = (e.getAttribute('aria-describedby') || '').split(' ').filter(id => id && !id.endsWith('-problem'));
    if (others.length) e.setAttribute('aria-describedby', others.join(' '));
    else e.removeAttribute('aria-describedby');
  }
}

// show puts problems in their places, and clears those that are cured. soft ones
// are no mistakes, only what has still to be said.
export function showProblems(problems, soft = false) {
  const key = JSON.stringify([problems, soft]) + chosen('pattern') + chosen('way') + chosen('colours');
  if (key === last) return;
  last = key;
  clear();
  const lines = [];
  for (const problem of problems) {
    const e = place(problem);
    if (e) beside(e, problem, soft);
    lines.push(line(e, problem));
  }
  top.replaceChildren(...(soft ? [] : lines));
}

function beside(e, problem, soft) {
  for (let d = e.closest('details:not([open])'); d; d = d.parentElement.closest('details:not([open])')) d.open = true;
  const p = document.createElement('p');
  p.className = soft ? 'problem hint' : 'problem';
  p.id = e.id + '-problem';
  p.textContent = problem.says;
  const group = e.matches('fieldset, div');
  if (group) (e.querySelector('legend') || e).insertAdjacentElement(e.querySelector('legend') ? 'afterend' : 'afterbegin', p);
  else (e.closest('.field, .drop') || e.parentElement).append(p);
  e.dataset.wrong = '';
  if (!soft && !group) e.setAttribute('aria-invalid', 'true');
  e.setAttribute('aria-describedby', `${e.getAttribute('aria-describedby') || ''} ${p.id}`.trim());
}

// called is what the page calls a control.
function called(e) {
  if (e.matches('fieldset, div')) return e.querySelector('legend')?.textContent || '';
  return e.labels?.[0]?.textContent.trim() || '';
}

function line(e, problem) {
  const p = document.createElement('p');
  p.textContent = e ? `${called(e).replace(/\?$/, '')}: ${problem.says}` : problem.says;
  if (e) {
    const go = document.createElement('button');
    go.type = 'button';
    go.textContent = 'Show me';
    go.addEventListener('click', () => {
      const into = e.matches('fieldset, div') ? e.querySelector('input:checked, input, select') : e;
      into.focus();
      e.scrollIntoView({block: 'center'});
    });
    p.append(' ', go);
  }
  return p;
}
