import { Fragment, useMemo } from 'react';
import { expanded, leidenText } from '../../../core/read/index.ts';
import { captionWords } from '../../../core/report/words/index.ts';
import { useShown } from '../state/current.ts';
import { legendsOf, platesWords, printedRows } from './cardPage.ts';
import { pictureUrl } from './pictureUrl.ts';
import { useCard } from './useCard.ts';

/** The card as it is printed: plate, legend, and every row that says something. */
export function CardSheet() {
  const now = useCard();
  const face = useShown('face');
  const strip = useShown('strip');
  const faceUrl = useMemo(() => face && pictureUrl(face, 0), [face]);
  const stripUrl = useMemo(() => strip && pictureUrl(strip.picture, 0), [strip]);
  if (!now) return null;
  const { card, scan, language } = now;
  const captions = platesWords(face?.captions, strip?.picture.captions, language);
  return (
    // Scrolls by itself, so it must be reachable with the keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <section className="card-leaf" aria-label="Catalogue card" tabIndex={0}>
      <article className="card-sheet" lang={language}>
        <p className="card-small">
          {[card.repository, card.shelfmark || 'no shelfmark yet'].filter(Boolean).join(', ')}
        </p>
        <h2>{scan.title}</h2>
        {legendsOf(card).map((legend) => (
          <Fragment key={leidenText(legend.items)}>
            <p className="card-legend">{leidenText(legend.items)}</p>
            <p>
              <i>{expanded(legend)}</i>
            </p>
          </Fragment>
        ))}
        <figure>
          <div className="card-plate">
            {faceUrl && <img src={faceUrl} alt={face?.captions[language]} />}
            {stripUrl && <img className="card-strip" src={stripUrl} alt={strip?.picture.captions[language]} />}
          </div>
          <figcaption>
            {captions.join(' ')}
            {scan.simulated && ` ${captionWords[language].card.simulated}`}
          </figcaption>
        </figure>
        <dl className="card-rows">
          {printedRows(card, language).map(({ key, label, value }) => (
            <div key={key}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      </article>
    </section>
  );
}
