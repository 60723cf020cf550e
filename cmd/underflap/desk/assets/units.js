// Lengths as people type them, in millimetres or inches.

const plainNumber = /^\s*(?:(\d+)[ -]+)?(\d+(?:[.,]\d*)?|[.,]\d+)(?:\/(\d+))?\s*$/;
const mmPerInch = 25.4;

export const unit = () => document.querySelector('input[name=units]:checked').value;

// number is what a plain number or fraction says, NaN for anything else.
export function number(text) {
  const m = plainNumber.exec(text);
  if (!m || m[1] && !m[3]) return NaN;
  const part = Number(m[2].replace(',', '.')) / Number(m[3] || 1);
  return Number(m[1] || 0) + part;
}

// isPlain tells whether a text has no unit of its own.
export const isPlain = text => !Number.isNaN(number(text));

// millimetres of a plain number in a unit.
export const millimetres = (text, u = unit()) => number(text) * (u === 'in' ? mmPerInch : 1);

// inUnit writes millimetres as a plain number in a unit: 162 is 6.378 in.
export function inUnit(mm, u = unit()) {
  return u === 'in' ? String(Number((mm / mmPerInch).toFixed(3))) : String(Number(mm.toFixed(2)));
}

// Both sides of a size, or the one length there is.
const parts = text => text.split(/[x×]/i);

function convert(text, from, to) {
  const both = parts(text);
  if (both.length > 2 || !both.every(isPlain)) return text;
  return both.map(p => inUnit(millimetres(p, from), to)).join('x');
}

// switchUnits rewrites what is typed and what is said. What was typed in a unit
// comes back as it was when the unit does, unless it was changed meanwhile.
export function switchUnits(from, to) {
  for (const field of document.querySelectorAll('[data-length]')) {
    const was = field.typed;
    if (was && was.unit === to && was.shown === field.value) {
      field.value = was.text;
      field.typed = null;
    } else if (field.value.trim()) {
      const text = field.value;
      field.value = convert(text, from, to);
      field.typed = {unit: from, text, shown: field.value};
    }
  }
  sayInUnit();
}

// sayInUnit writes every text that stands in both units in the one chosen.
export function sayInUnit() {
  const u = unit();
  for (const e of document.querySelectorAll('[data-mm]')) e.textContent = e.dataset[u];
  for (const e of document.querySelectorAll('[data-usual]')) e.placeholder = inUnit(Number(e.dataset.usual), u);
}
