import { useId } from 'react';
import { cardJsonLd, cardsCsv, cardTei } from '../../../core/read/index.ts';
import { download } from '../../state/download.ts';
import { documentNow, settle } from '../../state/store.ts';
import { actOnRead } from '../state/acts.ts';
import { type CardField, type CardGroup, cardGroups } from '../state/card.ts';
import { useShown } from '../state/current.ts';
import { cardPage } from './cardPage.ts';
import { pictureUrl } from './pictureUrl.ts';
import { manifestDoubt, saveManifest } from './saveManifest.ts';
import { type CardNow, useCard } from './useCard.ts';

/** The form of the card: what the scan tells stands there already. */
export function CardForm() {
  const now = useCard();
  if (!now) return null;
  return (
    <>
      <CardFiles now={now} />
      {cardGroups
        .filter(({ only }) => only === undefined || now.fields.class === only)
        .map((group) => (
          <Group key={group.title} group={group} now={now} />
        ))}
    </>
  );
}

/** One group of fields; what few cards have is folded until something stands in it. */
function Group({ group: { title, fields, folded }, now }: { group: CardGroup; now: CardNow }) {
  const body = (
    <div className="read-fields">
      {fields.map((field) => (
        <Field key={field.name} field={field} now={now} />
      ))}
    </div>
  );
  if (!folded)
    return (
      <fieldset className="card-group">
        <legend>{title}</legend>
        {body}
      </fieldset>
    );
  return (
    <details className="card-group" open={fields.some(({ name }) => (now.fields[name] ?? '') !== '') || undefined}>
      <summary>{title}</summary>
      {body}
    </details>
  );
}

export function writeField(scanId: string, name: string, value: string): void {
  const { cards } = documentNow().read;
  actOnRead('Card written', { cards: { ...cards, [scanId]: { ...cards[scanId], [name]: value } } }, `card ${name}`);
}

function Field({ field, now }: { field: CardField; now: CardNow }) {
  const { name, label, choices, area, wide } = field;
  const id = useId();
  const value = now.fields[name] ?? '';
  const fault = now.faults.find((one) => one.field === name);
  const common = {
    id,
    value,
    'aria-invalid': fault !== undefined,
    onChange: (event: { target: { value: string } }) => writeField(now.scan.id, name, event.target.value),
    onBlur: settle,
  };
  return (
    <label htmlFor={id} className={wide ? 'wide' : undefined}>
      <span>{label}</span>
      {choices ? (
        <select {...common}>
          {choices.map(([each, words]) => (
            <option key={each} value={each}>
              {words}
            </option>
          ))}
        </select>
      ) : area ? (
        <textarea rows={2} {...common} />
      ) : (
        <input type="text" {...common} />
      )}
      {fault && <span className="fault">{fault.words}</span>}
    </label>
  );
}

/** The card handed on: nothing leaves with a fault in it. */
function CardFiles({ now }: { now: CardNow }) {
  const { card, faults, scan, language } = now;
  const face = useShown('face');
  const strip = useShown('strip');
  const stem = scan.name.replace(/\.[^.]+$/, '');
  const save = (text: string, type: string, name: string): void => download(new Blob([text], { type }), name);
  const ready = faults.length === 0;
  const page = (): void => {
    const pictures = [face, strip?.picture].flatMap((one) =>
      one ? [{ url: pictureUrl(one), caption: one.captions[language] }] : [],
    );
    save(cardPage(card, scan.title, pictures, language), 'text/html', `${stem}-card.html`);
  };
  return (
    <>
      <h3>Hand on</h3>
      <p className="seats">
        {(
          [
            [
              'as JSON-LD',
              () => save(JSON.stringify(cardJsonLd(card), null, 1), 'application/ld+json', `${stem}-card.jsonld`),
            ],
            ['as TEI', () => save(cardTei(card, language), 'application/tei+xml', `${stem}-card.xml`)],
            ['as CSV', () => save(cardsCsv([card], language), 'text/csv', `${stem}-card.csv`)],
            ['as a page', page],
            ...(now.fields.base ? ([['as IIIF', () => saveManifest(now, stem, face, strip)]] as const) : []),
            ['print', () => window.print()],
          ] as const
        ).map(([words, run]) => (
          <button key={words} type="button" className="word plain" disabled={!ready} onClick={run}>
            {words}
          </button>
        ))}
      </p>
      {!ready && (
        <p className="fault" role="status">
          {faults[0].words}
          {faults.length > 1 && ` And ${faults.length - 1} more.`}
        </p>
      )}
      {manifestDoubt(now) && <p className="fault">{manifestDoubt(now)}</p>}
    </>
  );
}
