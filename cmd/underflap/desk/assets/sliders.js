// A slider and the box beside it say the same. Sliders count in millimetres, and
// the box in the unit of the page; it also takes what lies past the slider's ends.

import {inUnit, millimetres, number} from './units.js';

const sliders = () => document.querySelectorAll('[data-slides]');
const boxOf = slider => document.getElementById(slider.dataset.slides);
const isLength = box => 'length' in box.dataset;

// followBoxes moves every slider to what its box says. A box that says the
// default says it in the page's unit.
export function followBoxes() {
  for (const slider of sliders()) {
    const box = boxOf(slider);
    const usual = isLength(box) ? inUnit(Number(box.dataset.default)) : box.dataset.default;
    if (!box.value.trim()) box.value = usual;
    box.usualText = usual;
    follow(slider, box);
  }
}

function follow(slider, box) {
  const v = isLength(box) ? millimetres(box.value) : number(box.value.replace(/^\s*-/, '')) * (/^\s*-/.test(box.value) ? -1 : 1);
  if (!Number.isNaN(v)) slider.value = v;
  say(slider, box);
}

const say = (slider, box) => {
  const unit = box.parentElement.querySelector('.unit')?.textContent || '';
  slider.setAttribute('aria-valuetext', `${box.value} ${unit}`.trim());
};

// slide is called for every input event; it passes on what a slider says.
export function slide(target) {
  if (target.dataset.slides) {
    const box = boxOf(target);
    // where nothing was moved the box keeps its exact words
    box.value = isLength(box) ? inUnit(Number(target.value)) : String(Number(Number(target.value).toFixed(2)));
    say(target, box);
    return;
  }
  const slider = target.id && document.getElementById(target.id + '-slide');
  if (slider) follow(slider, target);
}
