// Colours: pickers beside their texts, and the colours now on the page.

import {chosen} from './show.js';

const byId = id => document.getElementById(id);
const hex = /^#[0-9a-f]{6}$/i;
const svg = 'http://www.w3.org/2000/svg';
let now = null; // the colours of the last good picture

// toHex is any colour that the browser knows, as #rrggbb; '' for others.
function toHex(text) {
  if (hex.test(text)) return text.toLowerCase();
  if (!text || !CSS.supports('color', text)) return '';
  const c = document.createElement('canvas').getContext('2d');
  c.fillStyle = text;
  return hex.test(c.fillStyle) ? c.fillStyle : '';
}

// followTexts sets every picker to the colour that its text says.
export function followTexts() {
  for (const picker of document.querySelectorAll('[data-picks]')) {
    const text = byId(picker.dataset.picks).value.trim();
    const colour = toHex(text);
    if (colour) picker.value = colour;
    picker.classList.toggle('none', !text);
  }
  const table = toHex(byId('table')?.value.trim() || '');
  document.querySelector('.frame.look').style.backgroundColor = table;
}

// pick passes on what a picker says.
export function pick(target) {
  if (!target.dataset.picks) return;
  byId(target.dataset.picks).value = target.value;
}

// startOwn fills empty own colours with those that were on the page.
export function startOwn() {
  const inks = [...document.querySelectorAll('[data-ink]')];
  if (!['own', 'photo'].includes(chosen('colours')) || byId('ground').value || inks.some(c => c.value)) return;
  const ready = document.querySelector('input[name=palette]:checked');
  const from = now || {ground: ready.dataset.ground, inks: ready.dataset.inks.split(',')};
  putOwn(from.ground, from.inks);
}

// putOwn writes colours into the fields of one's own.
export function putOwn(ground, list) {
  byId('ground').value = ground;
  document.querySelectorAll('[data-ink]').forEach((c, i) => { c.value = list[i] || ''; });
  followTexts();
}

// showColours paints the strip of the colours now in use.
export function showColours(colours) {
  if (!colours) return;
  now = colours;
  const strip = byId('colours-now'), all = [colours.ground, ...colours.inks], each = 240 / all.length;
  strip.replaceChildren(...all.map((colour, i) => {
    const r = document.createElementNS(svg, 'rect');
    for (const [k, v] of Object.entries({x: i * each, y: 0, width: each + 0.5, height: 24, fill: colour})) r.setAttribute(k, v);
    return r;
  }));
  byId('colours-say').textContent = colours.name ? colours.name.replaceAll('-', ' ') : '';
}
