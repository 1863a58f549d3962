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
      <Stated head="Limits, as the file states them" lines={stated.limits} />
      <Stated head="Ground, as the file states it" lines={stated.ground} />
      <Wear zones={stated.zones} />
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
