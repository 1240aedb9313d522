import type { Parameters } from '../terms/fields.ts';
import { HEAT_CAPACITY, type Receiver } from '../flask/index.ts';
import { flaskSize } from '../hands/index.ts';
import type { WorkUpAction, WorkUpLog } from './actions.ts';

/** K of warming from which the flask is put in ice before acetone; common practice, no source. */
const ICE_K = 10;
const ICE_MIN = 5;
/** min of swirling after the acid until every lump of hydroxide has gone; common practice, no source. */
const UNTIL_CLEAR_MIN = 4;
/** Share of a flask that can be pipetted out of it. */
const USABLE = 0.99;

/**
 * The usual order: over into a flask, alkali to slightly basic, a little acetate, acetic acid to the pH of the indicator,
 * thiocyanate, acetone, EDTA. Alkali, then acid, then thiocyanate: never the other way round. The whole eluate is titrated
 * once; with more titrations than one it is made up in a volumetric flask and portions of it are.
 */
export function defaultProcedure(receiver: Receiver, values: Parameters): WorkUpLog {
  const over: WorkUpAction = { do: 'transfer', rinses: values['workup.rinses'], rinse_mL: values['workup.rinse_mL'] };
  if (values['workup.titrations'] > 1) return [over, ...inPortions(receiver, values)];
  const volume_mL = receiver.volume_mL + over.rinses * over.rinse_mL;
  return [over, ...oneTitration(values, warms(receiver, volume_mL, values))];
}

function inPortions(receiver: Receiver, values: Parameters): WorkUpAction[] {
  const volume_mL = receiver.volume_mL + values['workup.rinses'] * values['workup.rinse_mL'];
  const flask_mL = flaskSize(volume_mL, values['workup.flask_mL']) ?? values['workup.flask_mL'];
  const portion_mL = values['workup.portion_mL'];
  const count = Math.max(1, Math.min(values['workup.titrations'], Math.floor((flask_mL * USABLE) / portion_mL)));
  const one: WorkUpAction[] = [{ do: 'portion', mL: portion_mL }, ...oneTitration(values, warms(receiver, flask_mL, values))];
  return [{ do: 'make up', to_mL: flask_mL }, ...Array.from({ length: count }, () => one).flat()];
}

/** Whether neutralising all the acid of a receiver in that volume warms it so much that ice is needed. */
function warms(receiver: Receiver, volume_mL: number, values: Parameters): boolean {
  return (values['workup.neutralisation_kJ_mol'] * receiver.HCl_mmol) / (volume_mL * HEAT_CAPACITY.value) > ICE_K;
}

function oneTitration(values: Parameters, ice: boolean): WorkUpAction[] {
  const steps: WorkUpAction[] = [
    { do: 'add', reagent: 'NaOH', dose: { until: { pH: values['workup.neutral_pH'] } } },
    { do: 'swirl', min: 1 },
  ];
  if (values['workup.acetate_mL'] > 0) steps.push({ do: 'add', reagent: 'acetate', dose: { mL: values['workup.acetate_mL'] } });
  steps.push({ do: 'add', reagent: 'acetic', dose: { until: { pH: values['workup.indicator_pH'] } } }, { do: 'swirl', min: UNTIL_CLEAR_MIN });
  if (ice) steps.push({ do: 'wait', min: ICE_MIN, ice: true });
  if (values['workup.thiocyanate_g'] > 0) steps.push({ do: 'add', reagent: 'thiocyanate', dose: { g: values['workup.thiocyanate_g'] } });
  if (values['workup.acetone_mL'] > 0) steps.push({ do: 'add', reagent: 'acetone', dose: { mL: values['workup.acetone_mL'] } });
  steps.push({ do: 'add', reagent: 'EDTA', dose: { until: 'pink' } });
  return steps;
}
