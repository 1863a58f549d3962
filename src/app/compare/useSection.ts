import { useEffect, useState } from 'react';
import type { Section } from '../../core/compare/index.ts';
import { plateXFromReference } from '../plate/frames.ts';
import type { Line } from '../state/document.ts';
import { usePair } from '../state/select.ts';
import { bench } from '../state/work.ts';

/** Both profiles along a line on the plate, computed in the worker from the surfaces themselves. */
export function useSection(line: Line | null): { section: Section | null; failure: string | null } {
  const { comparison, reference } = usePair();
  const [answer, setAnswer] = useState<{ section: Section | null; failure: string | null }>({
    section: null,
    failure: null,
  });
  const key = comparison?.key;
  const flip = plateXFromReference(reference);
  useEffect(() => {
    let wanted = true;
    if (!line || !key) {
      setAnswer({ section: null, failure: null });
      return;
    }
    const onReference = [flip * line[0], line[1], flip * line[2], line[3]] as const;
    void bench()
      .section(key, onReference)
      .then((result) => {
        if (!wanted) return;
        setAnswer(result.ok ? { section: result.value, failure: null } : { section: null, failure: result.message });
      });
    return () => {
      wanted = false;
    };
  }, [line, key, flip]);
  return answer;
}
