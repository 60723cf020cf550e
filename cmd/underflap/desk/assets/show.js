// Which parts of the page belong to what is chosen. A control in a hidden part
// says nothing.

// chosen is the word that a group of controls has.
export function chosen(name) {
  const radio = document.querySelector(`input[type=radio][name="${name}"]:checked`);
  if (radio) return radio.value;
  return document.getElementById(name)?.value ?? '';
}

// showParts shows what data-show names: "way=card|fold".
export function showParts() {
  for (const part of document.querySelectorAll('[data-show]')) {
    const [name, words] = part.dataset.show.split('=');
    part.hidden = !words.split('|').includes(chosen(name));
  }
}

// saying tells whether a control is on the page and has a say.
export const saying = c => !('page' in c.dataset) && !c.closest('[hidden]');

// check chooses a radio of a group by its value, in whatever case.
export function check(name, value) {
  for (const radio of document.querySelectorAll(`input[type=radio][name="${name}"]`)) {
    if (radio.value.toLowerCase() === value.toLowerCase()) {
      radio.checked = true;
      return true;
    }
  }
  return false;
}
