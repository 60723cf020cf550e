// Files that a person gives: stamps, photos and designs. They go to this machine
// alone.

import {gather} from './words.js';
import {putOwn} from './colours.js';

const byId = id => document.getElementById(id);

// send gives a file to the desk; what is wrong with it is thrown as plain words.
async function send(path, file) {
  let reply;
  try {
    reply = await fetch(`${path}?name=${encodeURIComponent(file.name)}`, {method: 'POST', body: file, headers: {'Content-Type': 'application/octet-stream'}});
  } catch {
    throw new Error('The desk does not answer, or the file is too large. Try again, or a smaller one.');
  }
  const answer = await reply.json().catch(() => ({}));
  if (!reply.ok) throw new Error(answer.problems?.map(p => p.says).join(' ') || 'This file cannot be used.');
  return answer;
}

// taking has a file field and the place around it take files, chosen or dropped.
function taking(id, status, take) {
  const input = byId(id), place = input.closest('.drop');
  const got = async file => {
    if (!file) return;
    byId(status).textContent = `Reading ${file.name} …`;
    byId(status).classList.remove('wrong');
    try {
      byId(status).textContent = await take(file);
      input.removeAttribute('aria-invalid');
    } catch (e) {
      byId(status).textContent = e.message;
      byId(status).classList.add('wrong');
      input.setAttribute('aria-invalid', 'true');
    }
    input.value = ''; // so that the same file can be given again
  };
  input.addEventListener('change', () => got(input.files[0]));
  if (!place) return;
  for (const kind of ['dragover', 'dragleave', 'drop']) {
    place.addEventListener(kind, e => {
      e.preventDefault();
      place.classList.toggle('over', kind === 'dragover');
      if (kind === 'drop') got(e.dataTransfer.files[0]);
    });
  }
}

// takeFiles wires the three; changed is called when the design is another one.
export function takeFiles(changed, open) {
  taking('stamp', 'stamp-status', async file => {
    const art = await send('/art', file);
    byId('stamp-word').value = art.stamp;
    showStamp(art.name);
    changed();
    return said(art);
  });
  taking('photo', 'photo-status', async file => {
    const found = await send('/photo', file);
    putOwn(found.ground, found.inks);
    changed();
    return [`Colours of ${file.name}.`, ...(found.remarks || [])].join(' ');
  });
  taking('open', 'open-status', async file => {
    const design = await send('/open', file);
    const lost = open(design.words);
    if (design.art) byId('stamp-word').value = design.art.stamp;
    showStamp(design.art?.name);
    changed();
    const kept = lost.length ? [`Left out, as this page has no place for it: ${lost.join(', ')}.`] : [];
    return [`${file.name} is open.`, ...(design.remarks || []), ...kept].join(' ');
  });
}

// What a bookmark names may be gone: the line beside the field says so, and no
// broken picture stands there.
byId('stamp-original').addEventListener('error', () => shown(false));

function shown(is) {
  const tile = document.querySelector('.sample.art');
  byId('stamp-shown').hidden = !is;
  tile.hidden = !is;
  tile.parentElement.querySelector('.own').toggleAttribute('hidden', is);
}

const said = art => [`${art.name}${art.kind === 'drawing' ? ', a drawing' : `, ${art.width} × ${art.height} dots`}.`, ...(art.remarks || [])].join(' ');

// showStamp puts what was given beside what it becomes.
export function showStamp(name) {
  const word = byId('stamp-word').value;
  shown(Boolean(word));
  if (!word) return;
  const words = gather(), query = new URLSearchParams({stamp: word});
  byId('stamp-original').src = `/art/original.png?${query}`;
  for (const n of ['stamp-colour', 'stamp-trace', 'palette', 'inks', 'ground']) if (words.has(n)) query.set(n, words.get(n));
  const cleaned = `/art/cleaned.png?${query}`;
  byId('stamp-cleaned').src = cleaned;
  document.querySelector('.sample.art').src = cleaned;
  if (name) byId('stamp-original').alt = `${name}, as you gave it`;
}
