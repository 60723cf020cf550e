// The page: every change goes to the pictures, and the design stays in the address
// so that a reload and a bookmark bring it back.

import {unit, switchUnits, sayInUnit} from './units.js';
import {showParts, chosen} from './show.js';
import {gather, put} from './words.js';
import {followBoxes, slide} from './sliders.js';
import {followTexts, pick, startOwn} from './colours.js';
import {ask, onGood} from './preview.js';
import {watchSamples, inTheseColours} from './samples.js';
import {takeFiles, showStamp} from './uploads.js';
import {showDialogs} from './dialogs.js';

const byId = id => document.getElementById(id);
const desk = byId('desk');
let shownUnit = 'mm', design = '#';

// settled brings all that hangs on the controls up to date.
function settled() {
  showParts();
  startOwn();
  followTexts();
  followBoxes();
  showAll(false);
  inTheseColours();
  explained();
  ask();
}

// explained shows how to measure before anything has been.
function explained() {
  const drawing = byId('explain');
  if (!drawing.closest('[hidden]') && !drawing.getAttribute('src')) drawing.src = drawing.dataset.get;
}

desk.addEventListener('input', e => {
  slide(e.target);
  pick(e.target);
  if (e.target.type === 'radio' || e.target.type === 'checkbox' || e.target.tagName === 'SELECT') return; // change follows
  followTexts();
  inTheseColours();
  ask();
});

document.addEventListener('change', e => {
  if (e.target.type === 'file' || e.target.form !== desk) return;
  if (e.target.name === 'units') {
    switchUnits(shownUnit, unit());
    shownUnit = unit();
    remember('units', shownUnit);
  }
  if (e.target.id === 'paper' && e.target.value) remember('paper', e.target.value);
  settled();
  if (chosen('pattern') === 'stamps' && /^(stamp|palette|suits|scheme|colours|ground|ink)/.test(e.target.name || e.target.id)) showStamp();
});

desk.addEventListener('submit', e => e.preventDefault());
desk.addEventListener('keydown', e => { // Enter in a field draws, and sends nothing away
  if (e.key === 'Enter' && e.target.tagName === 'INPUT' && e.target.type === 'text') {
    e.preventDefault();
    ask(0);
  }
});

byId('another').addEventListener('click', () => {
  byId('seed').value = String((Number(byId('seed').value) || 0) + 1);
  settled();
});

// Of many patterns the first are shown, with the one that is chosen.
const tiles = byId('pattern-tiles'), all = byId('all-patterns'), few = 12;
[...tiles.children].forEach((tile, i) => tile.classList.toggle('extra', i >= few));
all.hidden = tiles.children.length <= few;
all.addEventListener('click', () => showAll(!tiles.classList.contains('all'), true));
function showAll(on, asked = false) {
  if (!asked && !document.querySelector('.extra input:checked')) return;
  tiles.classList.toggle('all', asked ? on : true);
  const open = tiles.classList.contains('all');
  all.setAttribute('aria-expanded', String(open));
  all.textContent = open ? 'Show fewer' : `Show all ${tiles.children.length} patterns`;
}

byId('afresh').addEventListener('click', () => {
  history.pushState(null, '', design); // the browser's Back brings the design back
  open({});
  for (const e of document.querySelectorAll('.status')) e.textContent = '';
});

function remember(what, word) {
  try { localStorage.setItem(`underflap-${what}`, word); } catch { /* a browser that keeps nothing */ }
}
function remembered(what) {
  try { return localStorage.getItem(`underflap-${what}`); } catch { return null; }
}

// open puts a design on the page. Its lengths are millimetres where it does not
// say otherwise, and the page goes on in its own unit.
function open(words) {
  const mine = unit();
  const lost = put({units: ['mm'], ...words});
  shownUnit = unit();
  if (!words.units && mine === 'in') {
    document.querySelector('input[name=units][value=in]').checked = true;
    switchUnits('mm', 'in');
    shownUnit = 'in';
  }
  sayInUnit();
  settled();
  showStamp();
  return lost;
}

function fromAddress() {
  const words = {};
  if (!location.hash.includes('=')) return words; // a place on the page, no design
  for (const [name, value] of new URLSearchParams(location.hash.slice(1))) (words[name] ??= []).push(value);
  return words;
}

const query = id => byId(id).src.split('?')[1];
onGood(words => {
  design = `#${words}`;
  history.replaceState(null, '', design);
  const drawing = byId('explain');
  if (!drawing.closest('[hidden]') && query('explain') !== String(words)) drawing.src = `${drawing.dataset.get}?${words}`;
});
window.addEventListener('hashchange', () => {
  if (location.hash.includes('=')) open(fromAddress());
  else history.replaceState(null, '', design); // a skip link led to a place
});

takeFiles(settled, open);
showDialogs();
watchSamples();

const kept = fromAddress();
if (!Object.keys(kept).length) {
  if (remembered('units') === 'in') kept.units = ['in'];
  if (remembered('paper')) kept.paper = [remembered('paper')];
}
open(kept);
ask(0);
document.documentElement.dataset.ready = 'true';
