// Makes tests/data/psychrolib_grid.csv: moist air by an independent open-source library, on a grid.
//
//   npm install --prefix FOLDER psychrolib@1.1.1
//   NODE_PATH=FOLDER/node_modules node tests/data/make_psychrolib_grid.js > tests/data/psychrolib_grid.csv
//
// The library's relative humidity is over ice at and below 0.01 C, and so is its dew point there: a
// frost point. The columns are as it gives them; the test that reads them turns them over.
'use strict';

const fs = require('fs');
const library = require('psychrolib');
const release = require('psychrolib/package.json').version;
const version = /version ([0-9.]+)/.exec(
    fs.readFileSync(require.resolve('psychrolib'), 'utf8'))[1];

function range(from, to, step) {
  const values = [];
  for (let value = from; value <= to; value += step) values.push(value);
  return values;
}

library.SetUnitSystem(library.SI);
const temperatures = range(-20, 50, 2);
const humidities = [...range(1, 5, 1), ...range(8, 100, 4)];
const altitudes = [0, 1500];

const lines = [
  `# Made by tests/data/make_psychrolib_grid.js with the npm package psychrolib ${release}`,
  `# (PsychroLib ${version}). Source: psychrolib_npm`,
  '# Humidity and dew point are over ice where the temperature they stand for is 0.01 C or less.',
  'altitude_m,pressure_pa,temp_c,rh_percent,dew_point_c,wet_bulb_c,humidity_ratio',
];
for (const altitude of altitudes) {
  const pressure = library.GetStandardAtmPressure(altitude);
  for (const t of temperatures) {
    for (const rh of humidities) {
      const dew = library.GetTDewPointFromRelHum(t, rh / 100);
      const bulb = library.GetTWetBulbFromRelHum(t, rh / 100, pressure);
      const ratio = library.GetHumRatioFromRelHum(t, rh / 100, pressure);
      lines.push([altitude, pressure.toFixed(2), t, rh, dew.toFixed(4), bulb.toFixed(4),
                  ratio.toExponential(6)].join(','));
    }
  }
}
process.stdout.write(lines.join('\n') + '\n');
