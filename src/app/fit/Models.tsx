import type { Fit, FitModel, ModelName } from '../../core/fit/index.ts';
import { number } from '../look/numbers.ts';
import { act, useDocument } from '../state/store.ts';
import './fit.css';

const words: Readonly<Record<ModelName, string>> = {
  rigid: 'rigid',
  oneScale: 'one scale',
  smoothWarp: 'smooth warp',
};

/** The three models of the fit side by side; the plate shows the one that is picked. */
export function Models({ fit }: { fit: Fit }) {
  const picked = useDocument((document) => document.model);
  const shown = picked === 'chosen' ? fit.chosen : picked;
  return (
    <>
      <h3>Three models</h3>
      <table className="models num">
        <thead>
          <tr>
            <th scope="col">Model</th>
            <th scope="col">Scale</th>
            <th scope="col">Rest</th>
            <th scope="col">Warp</th>
          </tr>
        </thead>
        <tbody>
          {fit.models.map((model) => (
            <tr key={model.model}>
              <th scope="row">
                <button
                  type="button"
                  className="word"
                  aria-pressed={model.model === shown}
                  onClick={() => act('Model shown', (document) => ({ ...document, model: model.model }))}
                >
                  {words[model.model]}
                </button>
              </th>
              <td>{scaleWords(model)}</td>
              <td>{number(model.rmsMm, 3)}</td>
              <td>{model.warpRmsMm === undefined ? '–' : number(model.warpRmsMm, 3)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="soft">
        Rest and warp in mm, root mean square. The tool takes {words[fit.chosen]}: the simplest that the held-out parts
        of the face bear out. The differences and the finding rest on it; picking another changes only what the plate
        shows.
      </p>
    </>
  );
}

const scaleWords = (model: FitModel): string =>
  model.model === 'rigid' ? '1' : `${number(model.scale, 4)} ± ${number(model.scaleSd, 4)}`;
