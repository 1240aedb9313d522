import { isRecord, own } from '../../../../sim/input/index.ts';
import { valueAt } from '../../../../sim/lab/index.ts';
import { IONS, type IonId } from '../../../../sim/terms/ions.ts';
import { withUnit } from '../../../ui/text/format.ts';

// An action of a procedure in a sentence. Takes any JSON, since a lab that is being edited need not be valid.

export function actionSentence(action: unknown, json: unknown): string {
  const of = (key: string, unit: string): string => withUnit(String(own(action, key) ?? '?'), unit);
  const bottle = String(valueAt(json, `liquids.${String(own(action, 'liquid'))}.label`) ?? own(action, 'liquid') ?? '?');
  switch (own(action, 'do')) {
    case 'pour':
      return `pour ${of('volume_mL', 'mL')} of ${bottle}${own(action, 'how') === 'bed' ? ' onto the bed' : ''}${unlessWords(own(action, 'unless'))}`;
    case 'clamp':
      return own(action, 'open_percent') === 0 ? 'shut the clamp' : `open the clamp to ${of('open_percent', '%')}`;
    case 'receiver':
      return `receiver “${String(own(action, 'label'))}” under the tip`;
    case 'wait':
      return `wait ${untilWords(own(action, 'until'))}`;
    case 'stir':
      return 'stir the bed up and let it settle';
    case 'refill-from-below':
      return `push ${of('volume_mL', 'mL')} of ${bottle} in from below`;
    case 'pack':
      return `pour slurry of ${of('resin_mL', 'mL')} of resin`;
    case 'top-up':
      return `add ${of('resin_mL', 'mL')} of resin`;
    case 'spill':
      return `spill ${of('share', '')} of what is in the receiver`;
    case 'fault':
      return `fault: ${String(valueAt(action, 'fault.kind'))}`;
    default:
      return 'unknown action';
  }
}

function unlessWords(unless: unknown): string {
  if (!isRecord(unless)) return '';
  return `, unless the leading edge of ${nameOf(unless['ion'])} is within ${withUnit(String(unless['above_bottom_mm']), 'mm')} of the bottom`;
}

function nameOf(ion: unknown): string {
  return IONS[String(ion) as IonId]?.name ?? String(ion);
}

function untilWords(until: unknown): string {
  if (!isRecord(until)) return 'for something';
  const of = (key: string, unit: string): string => withUnit(String(until[key]), unit);
  if ('liquid_mm' in until) return `until the liquid stands ${of('liquid_mm', 'mm')} above the bed`;
  if ('more_mL' in until) return `until ${of('more_mL', 'mL')} more are delivered`;
  if ('delivered_mL' in until) return `until ${of('delivered_mL', 'mL')} are delivered`;
  if ('elapsed_min' in until) return `for ${of('elapsed_min', 'min')}`;
  if ('time_min' in until) return `until minute ${String(until['time_min'])} of the run`;
  return `until the ${String(until['edge'])} edge of ${nameOf(until['ion'])} is ${of('depth_cm', 'cm')} deep`;
}
