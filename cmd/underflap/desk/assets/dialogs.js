// Printing, and pictures shown large.

const byId = id => document.getElementById(id);

export function showDialogs() {
  byId('print').addEventListener('click', () => byId('print-dialog').showModal());
  byId('print-pdf').addEventListener('click', () => byId('print-dialog').close());
  for (const which of ['look', 'sheet']) {
    byId(`enlarge-${which}`).addEventListener('click', () => {
      const from = byId(`preview-${which}`), to = byId('large');
      if (!from.getAttribute('src')) return;
      to.src = from.src;
      to.alt = from.alt;
      byId('large-dialog').showModal();
    });
  }
  for (const dialog of document.querySelectorAll('dialog')) {
    dialog.addEventListener('click', e => { // on the ground around it
      if (e.target === dialog || e.target.closest('[data-close]')) dialog.close();
    });
  }
}
