// The filter of the index: rows carry what is asked for, so that it works from a file.
const rows = [...document.querySelectorAll('.posts tbody tr')];
const words = (row, name) => (row.dataset[name] ?? '').split(' ').filter(Boolean);
const form = document.querySelector('.filter');
const without = form.querySelector('.without');
for (const name of [...new Set(rows.flatMap((row) => words(row, 'allergens')))].sort()) {
  const label = without.appendChild(document.createElement('label'));
  const box = label.appendChild(document.createElement('input'));
  Object.assign(box, { type: 'checkbox', name: 'without', value: name });
  label.append(` ${name}`);
}
without.hidden = without.querySelector('label') === null;
const ticked = (name) => [...form.querySelectorAll(`[name=${name}]:checked`)].map((box) => box.value);
function filter() {
  const sought = form.elements.sought.value.toLowerCase().split(/\s+/).filter(Boolean);
  const within = form.elements.standing.value, most = Number(form.elements.most.value);
  for (const row of rows) {
    const text = `${row.textContent} ${row.dataset.words}`.toLowerCase();
    const seconds = Number(row.dataset.seconds);
    row.hidden = !(sought.every((word) => text.includes(word)) && (!within || words(row, 'standing').includes(within))
      && (!most || (seconds > 0 && seconds <= most)) && ticked('diet').every((d) => words(row, 'diets').includes(d))
      && !ticked('without').some((a) => words(row, 'allergens').includes(a)));
  }
  form.querySelector('output').value = `${rows.filter((row) => !row.hidden).length} of ${rows.length} recipes`;
}
form.addEventListener('input', filter);
form.addEventListener('submit', (event) => event.preventDefault());
form.hidden = false;
filter();
