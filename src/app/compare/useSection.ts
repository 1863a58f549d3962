import { useEffect, useState } from 'react';
import type { Section } from '../../core/compare/index.ts';
import { runOnce } from '../jobs/runner.ts';
import { services } from '../jobs/workers.ts';
import type { Line } from '../state/document.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { usePair } from '../state/select.ts';
import { sectionOfViews } from './sectionOfViews.ts';

/** Both profiles along a line on the plate, computed in the worker from the surfaces themselves. */
export function useSection(line: Line | null): { section: Section | null; failure: string | null } {
  const { comparison, reference, subject } = usePair();
  const [answer, setAnswer] = useState<{ section: Section | null; failure: string | null }>({
    section: null,
    failure: null,
  });
  const flip = plateXFromReference(reference);
  useEffect(() => {
    let wanted = true;
    if (!line || !comparison) {
      setAnswer({ section: null, failure: null });
      return;
    }
    const onReference = [flip * line[0], line[1], flip * line[2], line[3]] as const;
    const shown = (): Section | null => {
      const fitted = comparison.referenceFaceFromSubjectFace[comparison.fit.chosen];
      return reference && subject && fitted ? sectionOfViews(reference, subject, fitted, onReference) : null;
    };
    const take = (section: Section | null, failure: string | null): void => {
      if (wanted) setAnswer({ section, failure });
    };
    // A comparison that was opened from a file is not known to the worker.
    if (comparison.stated) take(shown(), null);
    else
      void runOnce(() => services().section(comparison.key, onReference)).then((result) => {
        if (result === 'stopped') take(null, 'Stopped.');
        else if (result.ok) take(result.value, null);
        else take(shown(), shown() ? null : result.message);
      });
    return () => {
      wanted = false;
    };
  }, [line, comparison, reference, subject, flip]);
  return answer;
}
