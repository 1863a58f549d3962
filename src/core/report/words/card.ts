import type { CardFault, FaultyField, FieldFault, ManifestFault } from '../../read/index.ts';
import { transcriptionWords } from './transcription.ts';

/** What is wrong with a card, in a sentence; of its shape the schema's own message. */
export function cardFaultWords(fault: CardFault): string {
  switch (fault.code) {
    case 'shape':
      return fault.message;
    case 'sealBeyondLast':
      return `Seal ${fault.number} of ${fault.of} cannot be.`;
    case 'chainEnd':
      return `The chain ends with a ${fault.last}, but the object is a ${fault.object}.`;
    case 'chainSteps':
      return `The chain has ${fault.steps} steps from the matrix, the card says ${fault.stated}.`;
    case 'hangsNot':
      return `A ${fault.object} does not hang on a document; a cast's original has its own field.`;
    case 'castOnly':
      return `What a cast alone has is filled in, but the object is a ${fault.object}.`;
    case 'yearsReversed':
      return 'The earliest year comes after the latest.';
    case 'survivingTooLarge':
      return 'What survives cannot be larger than the piece was.';
    case 'pieceTooSmall':
      return 'The whole piece cannot be smaller than the image on it.';
    case 'sidesAlike':
      return `Both sides are the ${fault.side}.`;
    case 'legend':
      return transcriptionWords(fault.issue);
  }
}

/** What a field takes, said where it holds something of another shape. */
const takes: Readonly<Record<FaultyField, string>> = {
  shelfmark: 'The shelfmark is missing.',
  sealNumber: 'Seal n of m takes two whole numbers.',
  objectType: 'Choose the object type, or not known.',
  attachment: 'Choose how it is attached, or not known.',
  status: 'Choose whether it is attached, or not known.',
  generation: 'Copying steps are a whole number, or left empty where not known.',
  chain: 'The chain names matrix, mould, impression or cast, each with its material in brackets.',
  castMaterial: 'Of a cast its material and its original are told, each or not known.',
  parent: 'Another object is told in words, with its address in angle brackets where it has one.',
  imageHeight: 'The image takes two sizes in mm, or none.',
  imageHeight2: 'The image of the other side takes two sizes in mm, or none.',
  legend: 'The legend has a fault; see the leaf legend.',
  legend2: 'The legend of the other side has a fault.',
  shape: 'Choose the shape, or not known.',
  side2: 'Choose which side the other one is.',
  turn: 'Turn, offset and thickness are numbers.',
  pieceHeight: 'The piece takes two sizes in mm, or none.',
  survivingHeight: 'What survives takes two sizes in mm, or none.',
  notBefore: 'Years are whole numbers; give the date in words as well.',
  scanDate: 'The day of the scan is written year-month-day.',
};

/** A fault in a sentence for who fills in the fields, and the name of the field, or the part of the card where no form has one. */
export const fieldFaultWords = ({ field, fault }: FieldFault): { readonly field: string; readonly words: string } => ({
  field: field ?? fault.field,
  words: field !== null && fault.code === 'shape' ? takes[field] : cardFaultWords(fault),
});

/** What is wrong with the stated address or rights of a manifest. */
export const manifestFaultWords = (fault: ManifestFault): string =>
  ({
    base: 'The base is a web address that ends with a slash, such as https://example.org/seals/12/.',
    rights:
      'The licence is an address of http://creativecommons.org/ or http://rightsstatements.org/; other words belong into the card.',
  })[fault];
