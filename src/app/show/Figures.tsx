import { kindWords } from '../frame/words.ts';
import { imageOf, sizeWords } from '../look/sizeWords.ts';
import { senseWords } from '../plate/frames.ts';
import { usePlate } from '../plate/usePlate.ts';
import { scanById } from '../state/document.ts';
import { download } from '../state/download.ts';
import { useMarks } from '../state/marks.ts';
import { useRangeMm } from '../state/select.ts';
import { notify, useDocument } from '../state/store.ts';
import { capturePlate } from './capture.ts';
import { figurePng, figureSvg } from './drawFigure.ts';
import { type Figure, figureOf } from './figure.ts';
import { plateSize } from './plateSize.ts';

/** Pixels per CSS pixel of a saved figure: enough to print a plate of 1000 pixels at 20 cm and 300 dpi. */
const printScale = 2.5;

/** The plate as it stands, saved as a picture with scale bar, light and caption. */
export function Figures() {
  const figure = useFigure();
  const save = async (form: 'png' | 'svg'): Promise<void> => {
    const made = figure();
    if (!made) {
      notify('There is nothing on the plate to save; bring scans in first.');
      return;
    }
    const file = form === 'svg' ? figureSvg(made) : await figurePng(made, printScale);
    if (file) download(file, `ectype-plate.${form}`);
  };
  return (
    <>
      <h3>The plate as a figure</h3>
      <p className="seats">
        <button type="button" className="word plain" onClick={() => void save('png')}>
          save as PNG
        </button>
        <button type="button" className="word plain" onClick={() => void save('svg')}>
          save as SVG
        </button>
      </p>
    </>
  );
}

function useFigure(): () => Figure | null {
  const size = plateSize();
  const plate = usePlate(size);
  const view = useDocument((document) => document.view);
  const document = useDocument((now) => now);
  const marks = useMarks();
  const rangeMm = useRangeMm();
  return () => {
    const seals = capturePlate(printScale);
    if (!seals || plate.pictures.length === 0) return null;
    const captions = (['reference', 'subject'] as const).flatMap((role, i) => {
      const face = plate[role];
      const scan = scanById(document, i === 0 ? document.referenceId : document.subjectId);
      if (!face) return [];
      const size = sizeWords(face, imageOf(face, plate));
      return [
        `${'ab'[i]}  ${scan?.title ?? face.name}. ${kindWords[face.kind]}, ${senseWords(face, view.engraved)}${scan?.simulated ? ', simulated' : ''}${scan?.reduced ? ', reduced surface' : ''}${face.fromFile ? ', from a saved file' : ''}; ${size}.`,
      ];
    });
    return figureOf({ plate, view, marks, captions, rangeMm, seals, ...size });
  };
}
