// The words of a request, gathered from the controls and put back into them.

import {unit, isPlain} from './units.js';
import {showParts, saying, chosen, check} from './show.js';

const desk = document.getElementById('desk');
const byId = id => document.getElementById(id);

// withUnit says in which unit a plain number is meant.
const withUnit = text => isPlain(text) ? pointed(text) + unit() : text.trim();

// pointed is a number with the decimal point that the fields know, for those who
// write a comma.
const pointed = text => isPlain(text) ? text.trim().replace(',', '.') : text;

// gather is what the page says, under the names of the fields.
export function gather() {
  const words = new URLSearchParams();
  if (unit() === 'in') words.set('units', 'in');
  const sides = {}, inks = [];
  for (const c of desk.elements) {
    if (!/^(INPUT|SELECT)$/.test(c.tagName) || !saying(c)) continue;
    const text = c.value.trim();
    if (c.dataset.join && c.dataset.join !== 'palette') {
      (sides[c.dataset.join] ??= []).push(text && withUnit(text));
    } else if ('ink' in c.dataset) {
      if (text) inks.push(text);
    } else if (c.dataset.set) {
      if (text && text !== usualText(c)) words.append('set', `${c.dataset.set}=${'length' in c.dataset ? withUnit(text) : text}`);
    } else {
      const name = c.dataset.word || c.name;
      if (!name || name === 'units' || name === 'scheme' || text === '' || text === c.dataset.default) continue;
      if ((c.type === 'radio' || c.type === 'checkbox') && !c.checked) continue;
      words.set(name, c.inputMode || 'length' in c.dataset ? pointed(text) : text);
    }
  }
  for (const [name, both] of Object.entries(sides)) {
    if (both.some(Boolean)) words.set(name, both.join('x'));
  }
  if (inks.length) words.set('inks', inks.join(', '));
  if (chosen('colours') === 'from') words.set('palette', `${chosen('scheme')}:${byId('from-colour').value.trim()}`);
  return words;
}

// usualText is what stands in a setting's box while nobody has changed it.
const usualText = c => c.usualText ?? c.dataset.default;

// missing names what has still to be typed before there is anything to draw.
export function missing() {
  const empty = id => !byId(id).value.trim();
  const wanted = {
    measure: ['pocket', 'pocket-height', 'flap-depth', 'Type all three: A, B and C.'],
    card: ['card-width', 'card-height', 'Type both sides of the card.'],
    paper: ['paper-width', 'paper-height', 'Type both sides of the paper.'],
  };
  for (const group of Object.values(wanted)) {
    const says = group.at(-1), field = group.slice(0, -1).find(empty);
    if (field && !byId(field).closest('[hidden]')) return {field, says};
  }
  if (chosen('colours') === 'from' && empty('from-colour')) return {field: 'from-colour', says: 'Pick a colour to start from.'};
  if (chosen('pattern') === 'stamps' && empty('stamp-word')) return {field: 'stamp', says: 'Add a picture of your stamp, and it fills the envelope.'};
  return null;
}

// put writes words into the controls, in place of all that was there. words is
// an object of lists; what the page has no place for comes back.
export function put(words) {
  desk.reset();
  byId('stamp-word').value = '';
  const say = Object.fromEntries(Object.entries(words).map(([name, list]) => [name, [].concat(list)]));
  const one = name => {
    const list = say[name];
    delete say[name];
    return list?.[0] ?? '';
  };
  if (one('units') === 'in') check('units', 'in');
  for (const c of desk.querySelectorAll('[data-length]')) {
    c.typed = null;
    if (c.dataset.default) c.value = ''; // its slider fills in the default, in the unit
  }

  putEnvelope(one, say);
  const pattern = one('pattern') || (say.stamp ? 'stamps' : '');
  const lost = [];
  if (pattern && !check('pattern', pattern)) lost.push(pattern);
  byId('stamp-word').value = one('stamp');
  check('stamp-colour', one('stamp-colour'));
  const settings = (say.set || []).concat(['repeat', 'symmetry'].filter(name => say[name]).map(name => `${name}=${say[name][0]}`));
  for (const name of ['set', 'repeat', 'symmetry']) delete say[name];
  for (const word of settings) {
    const at = word.indexOf('='), c = byId(`set-${chosen('pattern')}-${word.slice(0, at).trim()}`);
    if (c) c.value = bare(word.slice(at + 1));
    else lost.push(word);
  }
  putColours(one, lost);
  putSize('paper', one('paper'));
  for (const [name, list] of Object.entries(say)) {
    const c = byId(name);
    if (!c || c.name !== name) lost.push(name);
    else if (c.type === 'checkbox') c.checked = list[0] === 'true';
    else if (c.tagName !== 'SELECT') c.value = list[0];
    else if (!takes(c, list[0])) lost.push(`${name} ${list[0]}`);
  }
  showParts();
  return lost;
}

function putEnvelope(one, say) {
  const way = say.handmade ? 'fold' : say.pocket ? 'measure' : say.card && !say.envelope ? 'card' : 'size';
  check('way', way);
  const envelope = one('envelope');
  if (envelope && !check('envelope', envelope)) {
    byId('another-size').checked = true;
    putOption(byId('envelope-other'), envelope);
  }
  check('handmade', one('handmade'));
  check('flap', one('flap'));
  const card = one('card');
  if (card) putSize('card', card);
  const [a = '', b = ''] = sidesOf(one('pocket'));
  byId('pocket').value = a;
  byId('pocket-height').value = b;
  byId(way === 'measure' ? 'flap-depth' : 'flap-depth-own').value = bare(one('flap-depth'));
}

function putColours(one, lost) {
  const palette = one('palette'), ground = one('ground'), inks = one('inks').split(',').map(s => s.trim()).filter(Boolean);
  const [kind, rest] = palette.split(/:(.*)/s);
  if (kind === 'envelope' && rest) {
    check('colours', 'envelope');
    check('suits', palette) || lost.push(palette);
  } else if (rest && check('scheme', kind)) {
    check('colours', 'from');
    byId('from-colour').value = rest;
  } else if (palette && !check('palette', palette)) {
    lost.push(palette);
  }
  if (ground || inks.length) {
    check('colours', 'own');
    byId('ground').value = ground;
    document.querySelectorAll('[data-ink]').forEach((c, i) => { c.value = inks[i] || ''; });
  }
}

// takes chooses an option by its value, in whatever case, where there is one.
function takes(select, value) {
  const found = [...select.options].find(o => o.value.toLowerCase() === value.toLowerCase());
  if (found) found.selected = true;
  return Boolean(found);
}

// putOption chooses an option by its value, and adds one that is not there.
function putOption(select, value) {
  if (!takes(select, value)) select.add(new Option(value, value, false, true));
}

// putSize chooses a card or a paper by name, or types its sides.
function putSize(name, value) {
  const select = byId(name);
  const found = [...select.options].find(o => value && o.value.toLowerCase() === value.toLowerCase());
  if (found) {
    found.selected = true;
  } else if (value && sidesOf(value).length === 2) {
    select.value = '';
    [byId(name + '-width').value, byId(name + '-height').value] = sidesOf(value);
  } else if (value) {
    putOption(select, value);
  }
}

const sidesOf = size => {
  const sides = size.split(/[x×]/i).map(s => s.trim());
  const last = /[a-z"]+$/i.exec(sides.at(-1))?.[0] || '';
  return sides.filter(Boolean).map(s => bare(isPlain(s) ? s + last : s));
};

// bare is a length without its unit, where that is the page's.
const bare = text => {
  const m = /^(.*\d)\s*(mm|in|")$/.exec(text.trim());
  return m && (m[2] === 'mm' ? 'mm' : 'in') === unit() ? m[1] : text.trim();
};
