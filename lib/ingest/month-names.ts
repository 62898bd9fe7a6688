/**
 * Names and usual abbreviations of the months, January to December, in English, German, French, Spanish, Portuguese and
 * Italian (common practice). No word names different months in two of these languages.
 */
const NAMES = [
  'jan january januar jän jänner janv janvier ene enero janeiro gen gennaio',
  'feb february februar févr fevr fév février fevrier febrero fev fevereiro febbraio',
  'mar march mär märz mrz maerz mars marzo março marco',
  'apr april avr avril abr abril aprile',
  'may mai mayo maio mag maggio',
  'jun june juni juin junio junho giu giugno',
  'jul july juli juil juillet julio julho lug luglio',
  'aug august août aout ago agosto',
  'sep sept september septembre septiembre set setembro settembre',
  'oct october okt oktober octobre octubre out outubro ott ottobre',
  'nov november novembre noviembre novembro',
  'dec december dez dezember déc décembre decembre dic diciembre dezembro dicembre',
];

const MONTH_BY_NAME = new Map(
  NAMES.flatMap((names, i) => names.split(' ').map((name): [string, number] => [name, i + 1])),
);

/** The longest name above has ten letters. */
const MAX_LETTERS = 12;

/** The month a word names, from 1 to 12; 0 where it names none. */
export function monthNamed(word: string): number {
  if (word.length > MAX_LETTERS) return 0;
  return MONTH_BY_NAME.get(word.toLowerCase().normalize('NFC')) ?? 0;
}
