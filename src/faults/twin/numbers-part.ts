import { LitElement, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { targetOf } from '../../../sim/input/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import { controlStyles } from '../../ui/styles.ts';
import { sameOf, type Seen, setFree, shown, type Symptom, symptomsOf } from './numbers.ts';
import { partStyles } from '../styles.ts';
import '../../ui/table.ts';

/** Symptoms as numbers with their definitions, beside those of the twin. */
@customElement('bf-symptoms')
export class Symptoms extends LitElement {
  static override styles = [controlStyles, partStyles];

  @property({ attribute: false }) run: Seen | undefined;
  @property({ attribute: false }) twin: Seen | undefined;

  override render() {
    const { run, twin } = this;
    const ion = run && targetOf(run.scenario);
    if (!run || !ion) return nothing;
    const theirs = twin && symptomsOf(twin);
    const columns = [
      { key: 'label', label: 'symptom' },
      { key: 'run', label: 'this run' },
      ...(theirs ? [{ key: 'twin', label: 'healthy twin' }] : []),
      { key: 'meaning', label: 'how it is measured' },
    ];
    const rows = symptomsOf(run).map((symptom) => ({
      label: symptom.label,
      run: shown(symptom),
      ...(theirs ? { twin: shownOf(sameOf(theirs, symptom)) } : {}),
      meaning: symptom.meaning,
    }));
    return html`<bf-table caption=${`Symptoms, ${IONS[ion].name}`} .columns=${columns} .rows=${rows}></bf-table>
      ${setFree(run, ion) ? html`<p class="soft">Asymmetry and tailing are left out: the ${IONS[ion].name} is set free by a weaker eluent, and such a peak is steep in front and long behind on the soundest bed. Those figures are made for peaks at a constant eluent.</p>` : nothing}`;
  }
}

function shownOf(symptom: Symptom | undefined): string {
  return symptom ? shown(symptom) : '–';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-symptoms': Symptoms;
  }
}
