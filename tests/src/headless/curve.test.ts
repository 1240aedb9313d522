import { expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { curveCsv } from '../../../src/headless/curve.ts';

const LABEL = '=1+"a", first';

// RFC 4180, 2.1 to 2.7: CR LF ends a record, quotes inside quotes are doubled. A leading apostrophe keeps a spreadsheet from running the text.
test('the effluent is comma-separated text that holds any label of a receiver safely', () => {
  const read = readScenario(
    {
      title: 'label',
      purpose: 'one cell of water',
      ions: ['Ni'],
      liquids: { water: { label: 'water', HCl_M: 0 } },
      bed: { plates: 4, lanes: 1 },
      procedure: [
        { do: 'receiver', label: LABEL },
        { do: 'clamp', open_percent: 100 },
        { do: 'wait', until: { delivered_mL: 0.3 } },
      ],
    },
    'label',
  );
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const run = runWhole(read.scenario);
  const [head, ...lines] = curveCsv(run).trimEnd().split('\r\n');
  expect(head).toBe('delivered_mL,time_min,liquid_mm,flow_mL_per_min,receiver,HCl_M,Ni_M');
  expect(lines).toHaveLength(run.record.count);
  expect(lines.at(-1)).toMatch(/^0\.3,[\d.]+,[\d.]+,[\d.]+,"'=1\+""a"", first",0,0$/);
});
