import { type ChangeEvent, useRef } from 'react';
import { bringDates, type DatePlace } from '../state/dates.ts';

interface Props {
  readonly place: DatePlace;
  /** Names the field for those who do not see it. */
  readonly name: string;
  readonly words: string;
  readonly className: string;
}

/** A file for one date, chosen with the system's own dialogue; two files are both dates. */
export function ChooseDate({ place, name, words, className }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const onFiles = (event: ChangeEvent<HTMLInputElement>): void => {
    const files = [...(event.target.files ?? [])].map((file) => ({ file, name: file.name }));
    event.target.value = '';
    if (files.length > 0) void bringDates(files, place);
  };
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        {words}
      </button>
      <input
        ref={input}
        className="unseen"
        type="file"
        multiple={!place.includes('Again')}
        tabIndex={-1}
        aria-label={name}
        onChange={onFiles}
      />
    </>
  );
}
