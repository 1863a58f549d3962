import type { StatedResults } from '../../workers/browser/protocol.ts';
import { Wear } from './Wear.tsx';

/** The finding as a saved file states it: its words as a quotation, never in the form of the tool's own finding. */
export function StatedFinding({ stated }: { stated: StatedResults }) {
  if (stated.sentence === '') return <p>The file states no finding.</p>;
  return (
    <>
      <figure className="stated-finding">
        <figcaption>The file states</figcaption>
        <blockquote>
          <p className="stated-sentence">{stated.sentence}</p>
          <p className="soft">Strength: {stated.strength}</p>
        </blockquote>
      </figure>
      <StatedGrounds grounds={stated.grounds ?? []} />
      <Stated head="Limits, as the file states them" lines={stated.limits} />
      <details className="tables">
        <summary>Tables: the numbers that the file states</summary>
        <Stated head="What was weighed, as the file states it" lines={stated.ground} />
        <Wear zones={stated.zones} />
      </details>
    </>
  );
}

/** Why, in the file's words; nothing is pointed at on the seals, since nothing of it was measured here. */
function StatedGrounds({ grounds }: { grounds: NonNullable<StatedResults['grounds']> }) {
  if (grounds.length === 0) return null;
  return (
    <>
      <h3>Why, as the file states it</h3>
      <ol className="grounds">
        {grounds.map(({ title, figure, says, against, overturn, how }) => (
          <li key={title} className="ground-item">
            <details>
              <summary className="ground-head">
                <span className="ground-title">{title}</span>
                <span className="ground-figure num">{figure}</span>
              </summary>
              <div className="ground-told">
                <p>{says}</p>
                <p>
                  <b>Against it.</b> {against}
                </p>
                <p>
                  <b>What would overturn it.</b> {overturn}
                </p>
                <p className="soft">{how}</p>
              </div>
            </details>
          </li>
        ))}
      </ol>
    </>
  );
}

function Stated({ head, lines }: { head: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{head}</h3>
      <ul className="limits">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
