// Densities against the weights of a cup that GNU Units' definitions file carries.
import { spawnSync } from 'node:child_process';
import { ok, end } from './lib/tap.mjs';
import { run } from './lib/site.mjs';

// the definition, the food, and the form or fill it is measured in; GNU's figure must lie in the span
const rows = [
  ['butter', 'butter', 'whole'], ['butter_clarified', 'ghee'], ['shortening', 'vegetable shortening'],
  ['oil', 'vegetable oil'], ['flour_sifted', 'plain flour', 'sifted'], ['flour_spooned', 'plain flour'],
  ['flour_scooped', 'plain flour'], ['breadflour_spooned', 'bread flour'], ['breadflour_scooped', 'bread flour'],
  ['cornstarch', 'cornflour'], ['cocoa_spooned', 'cocoa powder'], ['cocoa_scooped', 'cocoa powder'],
  ['cocoa_sifted', 'cocoa powder'], ['dutchcocoa_spooned', 'cocoa powder'], ['heavycream', 'double cream'],
  ['milk', 'milk'], ['sourcream', 'sour cream'], ['molasses', 'molasses'], ['cornsyrup', 'corn syrup'],
  ['honey', 'honey'], ['sugar', 'white sugar'], ['powdered_sugar', 'icing sugar'],
  ['brownsugar_light', 'brown sugar', 'packed'], ['brownsugar_dark', 'dark brown sugar', 'packed'],
];
// GNU Units' weights are whole ounces and quarters a cup, so to half an eighth of an ounce
const rounding = 0.0625 * 28.349523125 / 236.5882365;

for (const [name, food, form] of rows) {
  const gnu = Number(spawnSync('units', ['-t', name, 'g/ml'], { encoding: 'utf8' }).stdout.trim());
  const line = run(['larder', '--json', food]).stdout.split('\n')[0];
  const found = line === '' ? undefined : JSON.parse(line);
  const measured = found?.forms.find((one) => one.density !== undefined && (form === undefined || one.form === form));
  const d = measured?.density;
  ok(d !== undefined && gnu >= d.low - rounding && gnu <= d.high + rounding,
    `${food}${form ? ` (${form})` : ''}: ${gnu.toFixed(3)} g/mL of ${name} lies in ${d?.low} to ${d?.high}`, found?.food ?? 'not found');
}
end();
