// The pictures follow the choices. Only the answer to the last question counts.

import {gather, missing} from './words.js';
import {showProblems} from './problems.js';
import {showColours} from './colours.js';

const byId = id => document.getElementById(id);
const pictures = byId('pictures'), gone = byId('gone');
const wait = 150; // milliseconds of quiet before the server is asked
let timer = 0, run = 0, asking = null, after = () => {};

// onGood is told the words of every good picture.
export function onGood(f) { after = f; }

// ask has the pictures drawn anew, soon.
export function ask(delay = wait) {
  clearTimeout(timer);
  timer = setTimeout(preview, delay);
}

async function preview() {
  const mine = ++run;
  asking?.abort();
  const lacking = missing();
  if (lacking) {
    pictures.classList.remove('busy');
    showProblems([lacking], true);
    stale(true);
    return;
  }
  asking = new AbortController();
  pictures.classList.add('busy');
  const words = gather();
  let answer;
  try {
    const reply = await fetch('/preview', {method: 'POST', body: words, signal: asking.signal});
    if (reply.status === 503) {
      if (mine === run) ask(1000);
      return;
    }
    answer = await reply.json();
    if (mine !== run) return;
    if (!reply.ok && !answer.problems?.length) throw new Error(reply.statusText);
  } catch (e) {
    if (e.name === 'AbortError' || mine !== run) return;
    lost();
    return;
  } finally {
    if (mine === run) pictures.classList.remove('busy');
  }
  gone.hidden = true;
  show(answer, words);
}

function show(answer, words) {
  const problems = answer.problems || [];
  showProblems(problems);
  stale(problems.length > 0);
  list('remarks', answer.remarks || []);
  if (problems.length) return;
  picture('preview-look', answer.look);
  picture('preview-sheet', answer.sheet);
  text('says', capital(answer.says || answer.liner?.says || ''));
  text('copies', answer.copies?.says);
  text('copies-say', answer.copies?.says);
  text('print-copies', answer.copies?.says);
  text('command', answer.command);
  showColours(answer.colours);
  after(words, answer);
}

// picture swaps one in when it is ready, so that nothing flickers.
function picture(id, made) {
  if (!made) return;
  const e = byId(id);
  if (e.src !== made.src) e.src = made.src;
  e.alt = made.about;
}

const capital = says => says.charAt(0).toUpperCase() + says.slice(1);

// text is written only when it differs, so that nothing is read out twice.
function text(id, says = '') {
  const e = byId(id);
  if (e.textContent !== says) e.textContent = says;
}

function list(id, lines) {
  const e = byId(id);
  if (JSON.stringify([...e.children].map(li => li.textContent)) === JSON.stringify(lines)) return;
  e.replaceChildren(...lines.map(says => Object.assign(document.createElement('li'), {textContent: says})));
}

// stale tells that the pictures are those of earlier choices, and keeps downloads
// from giving what is not seen.
function stale(is) {
  pictures.classList.toggle('outdated', is);
  byId('stale').hidden = !is || !byId('preview-look').getAttribute('src');
  for (const a of document.querySelectorAll('a[data-get]')) {
    if (is) {
      a.removeAttribute('href');
      a.setAttribute('aria-disabled', 'true');
    } else {
      a.removeAttribute('aria-disabled');
      a.href = `${a.dataset.get}?${gather()}`;
    }
  }
  byId('print').disabled = is;
}

// lost says that the server is gone, and asks again until it is back.
function lost() {
  gone.textContent = 'The desk does not answer. If its window was closed, start underflap desk again. Your choices are kept on this page, and it tries again by itself.';
  gone.hidden = false;
  stale(true);
  ask(3000);
}
