import type { Parameters } from '../terms/fields.ts';
import type { WorkUpAction, WorkUpLog } from './actions.ts';
import { flaskSize } from './apparatus.ts';
import { HEAT_CAPACITY } from '../flask/constants.ts';
import type { Receiver } from '../flask/flask.ts';

/** K of warming from which the flask is put in ice before acetone; common practice, no source. */
const ICE_K = 10;
const ICE_MIN = 5;
/** Share of a flask that can be pipetted out of it. */
const USABLE = 0.99;

/**
 * The usual order: make up, aliquot, alkali to slightly basic, acetate, acetic acid to the pH of the indicator,
 * thiocyanate, acetone, EDTA. Alkali, then acid, then thiocyanate: never the other way round.
 */
export function defaultProcedure(receiver: Receiver, values: Parameters): WorkUpLog {
  const flask_mL = flaskSize(receiver.volume_mL, values['workup.flask_mL']) ?? values['workup.flask_mL'];
  const aliquot_mL = values['workup.aliquot_mL'];
  const count = Math.max(1, Math.min(values['workup.titrations'], Math.floor((flask_mL * USABLE) / aliquot_mL)));
  const warming = (values['workup.neutralisation_kJ_mol'] * receiver.HCl_mmol) / (flask_mL * HEAT_CAPACITY.value);
  const one = oneTitration(values, warming > ICE_K);
  return [{ do: 'make up', to_mL: flask_mL }, ...Array.from({ length: count }, () => one).flat()];
}

function oneTitration(values: Parameters, ice: boolean): WorkUpAction[] {
  const steps: WorkUpAction[] = [
    { do: 'aliquot', mL: values['workup.aliquot_mL'] },
    { do: 'add', reagent: 'NaOH', portion: { until: { pH: values['workup.neutral_pH'] } } },
    { do: 'swirl', min: 1 },
  ];
  if (values['workup.acetate_mL'] > 0) steps.push({ do: 'add', reagent: 'acetate', portion: { mL: values['workup.acetate_mL'] } });
  steps.push({ do: 'add', reagent: 'acetic', portion: { until: { pH: values['workup.indicator_pH'] } } }, { do: 'swirl', min: 2 });
  if (ice) steps.push({ do: 'wait', min: ICE_MIN, ice: true });
  if (values['workup.thiocyanate_g'] > 0) steps.push({ do: 'add', reagent: 'thiocyanate', portion: { g: values['workup.thiocyanate_g'] } });
  if (values['workup.acetone_mL'] > 0) steps.push({ do: 'add', reagent: 'acetone', portion: { mL: values['workup.acetone_mL'] } });
  steps.push({ do: 'add', reagent: 'EDTA', portion: { until: 'pink' } });
  return steps;
}
