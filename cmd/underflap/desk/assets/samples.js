// The pictures of the patterns, in the colours chosen. Only those in view are
// fetched, a few at a time; the old one stays until the new one has come.

import {gather} from './words.js';

const inColours = ['palette', 'inks', 'ground', 'grey', 'paper-colour'];
const atOnce = 3;
const waiting = new Set(), seen = new Set();
let busy = 0, timer = 0, colours = '';

const watcher = new IntersectionObserver(entries => {
  for (const {target, isIntersecting} of entries) {
    if (isIntersecting) {
      seen.add(target);
      want(target);
    } else {
      seen.delete(target);
    }
  }
}, {rootMargin: '200px'});

// watchSamples begins to show the patterns.
export function watchSamples() {
  for (const img of document.querySelectorAll('img[data-sample]')) watcher.observe(img);
}

// inTheseColours has the pictures drawn in the colours now chosen.
export function inTheseColours() {
  const words = gather();
  const now = new URLSearchParams(inColours.filter(n => words.has(n)).map(n => [n, words.get(n)])).toString();
  if (now === colours) return;
  colours = now;
  clearTimeout(timer);
  timer = setTimeout(() => seen.forEach(want), 400);
}

const address = img => `/samples/pattern.png?pattern=${encodeURIComponent(img.dataset.sample)}&${colours}`;

function want(img) {
  if (img.dataset.shown === address(img)) return;
  waiting.add(img);
  next();
}

async function next() {
  while (busy < atOnce && waiting.size) {
    const [img] = waiting;
    waiting.delete(img);
    fetchOne(img);
  }
}

async function fetchOne(img) {
  busy++;
  const from = address(img), fresh = new Image();
  fresh.src = from;
  try {
    await fresh.decode();
    if (from === address(img)) {
      img.src = from;
      img.dataset.shown = from;
    }
  } catch {
    // no picture is no problem: the name stands below, and the next colours ask again
  } finally {
    busy--;
    if (from !== address(img) && seen.has(img)) waiting.add(img);
    next();
  }
}
