import { useState } from 'react';
import type { PlateFormat, PrintPlate } from '../../../core/report/index.ts';
import { download } from '../../state/download.ts';
import { notify } from '../../state/store.ts';
import { askOnce, type Question } from '../state/ask.ts';

export const formats = ['png', 'tif', 'svg'] as const;

/** Saving a plate for print: it is asked for once, painted and put into a file; what hinders it is said. */
export function usePlateSaving() {
  const [making, setMaking] = useState(false);
  const save = async <T>(
    ask: Question<T>['ask'],
    plateOf: (answer: T) => PrintPlate,
    stem: string,
    format: PlateFormat,
  ): Promise<void> => {
    setMaking(true);
    const answer = await askOnce(ask);
    if (answer !== 'stopped' && answer.ok) {
      const { plateFile } = await import('./platePainting.ts');
      download(await plateFile(plateOf(answer.value), format), `${stem}.${format}`);
    } else if (answer !== 'stopped') notify(answer.message);
    setMaking(false);
  };
  return { making, save };
}
