import { findingSentence, limitWords } from '../../core/report/words/index.ts';
import { Again } from '../compare/Again.tsx';
import { FromFile } from '../compare/FromFile.tsx';
import { Fit } from '../fit/Fit.tsx';
import { usePair } from '../state/select.ts';
import { act, useDocument } from '../state/store.ts';
import { Cautions } from './Cautions.tsx';
import { Conclusion } from './Conclusion.tsx';
import { Evidence } from './Evidence.tsx';
import { FirstReading } from './FirstReading.tsx';
import { StatedFinding } from './StatedFinding.tsx';
import { Wear } from './Wear.tsx';
import './finding.css';

/** The finding, folded until it is asked for, its ground and its limits, and one's own conclusion beside it. */
export function Finding() {
  const { comparison } = usePair();
  const open = useDocument((document) => document.findingOpen);
  if (!comparison) return <Fit />;
  const { judgement, stated } = comparison;
  return (
    <>
      <FromFile />
      <Again />
      <FirstReading />
      {open && !judgement && !stated && <p role="status">The evidence is being weighed.</p>}
      {open && stated && (
        <>
          <StatedFinding stated={stated} />
          <Conclusion />
        </>
      )}
      {open && judgement && (
        <>
          <p className="finding-sentence">{findingSentence(judgement)}</p>
          <Strength strength={judgement.strength} finding={judgement.finding} />
          <h3>Limits</h3>
          <ul className="limits">
            {judgement.limits.map(limitWords).map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <Evidence judgement={judgement} />
          <Wear zones={judgement.wear.zones} />
          <Conclusion />
        </>
      )}
      {!open && (
        <div className="deeds">
          <button
            type="button"
            className="deed"
            onClick={() => act('Finding unfolded', (document) => ({ ...document, findingOpen: true }))}
          >
            {stated ? 'Unfold what the file states' : 'Unfold the finding'}
          </button>
        </div>
      )}
      <Cautions />
    </>
  );
}

const strengths = ['none', 'weak', 'moderate', 'strong'] as const;

/** The strength on a printed scale: a word and a place, never a colour alone. */
function Strength({ strength, finding }: { strength: (typeof strengths)[number]; finding: string }) {
  const words =
    { supported: 'for', against: 'against', otherDesign: 'another design', undecided: 'undecided' }[finding] ?? finding;
  return (
    <p className="strength">
      <span className="soft">Strength: </span>
      {strengths.map((name) => (
        <span key={name} className={name === strength ? 'strength-here' : 'soft'}>
          {name}
        </span>
      ))}
      <span className="soft">({words})</span>
    </p>
  );
}
