// What was changed, line by line.

import type { Act, Band, Field, HistoryLine, NewHead, Purpose, Stage } from '../contract';
import { date, hundredths } from './format';
import { stages } from './stages';
import { headText } from './walk';
import { words } from './words';

/** A value that the notebook gives as text, in the reader's words. */
function value(field: Field, text: string): string {
  const { purpose } = words.plantings;
  if (field === 'purpose' && text in purpose) return purpose[text as Purpose].toLowerCase();
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return date(text);
  if (text.startsWith('{')) {
    try {
      const read = JSON.parse(text) as Record<string, unknown>;
      if (read['unit'] === 'acres' || read['unit'] === 'hectares')
        return words.plantings[read['unit']](Number(read['size']));
      if (typeof read['latitude'] === 'number' && typeof read['longitude'] === 'number')
        return words.past.position(read['latitude'], read['longitude']);
    } catch {
      // Shown as it is.
    }
  }
  return plainValue(text);
}

function plainValue(text: string): string {
  if (text === 'true') return words.past.yes;
  return text === 'false' ? words.past.no : text;
}

function head(said: NewHead): string {
  const parts = [headText(said.head)];
  parts.push(...said.flags.map((flag) => words.common.flag[flag].toLowerCase()));
  if (said.note) parts.push(words.past.quoted(said.note));
  return parts.join('; ');
}

/** A value that was given, and the one before it. */
function given(name: string, to: string, was: string | null, shown: (text: string) => string): string {
  if (to === '' && was === null) return name;
  const now = to === '' ? words.past.nothing : shown(to);
  return was === null ? words.past.fieldSet(name, now) : words.past.fieldChanged(name, now, shown(was));
}

function line(of: HistoryLine): string {
  switch (of.what) {
    case 'field':
      return given(words.past.fields[of.field], of.to, of.was, (text) => value(of.field, text));
    case 'seen':
      return given(words.past.parts[of.part], of.to, of.was, plainValue);
    case 'term':
      return given(
        of.term === null ? words.past.otherTerm : words.harvestTerms.term[of.term],
        of.to,
        of.was,
        plainValue,
      );
    case 'walk':
      return of.scout ? words.past.walkOfBy(of.walked_on, of.scout) : words.past.walkOf(of.walked_on);
    case 'stop':
      return words.past.stop(of.number);
    case 'head':
      return head(of.said);
    case 'photo':
      return words.past.photo;
    case 'heads':
      return words.past.heads(of.count);
    case 'corrected':
      return words.past.headCorrected(head(of.to), head(of.was));
    case 'taken_out':
      return of.said ? words.past.headOut(head(of.said)) : words.past.aHeadOut;
    case 'brought_back':
      return of.said ? words.past.headBack(head(of.said)) : words.past.aHeadBack;
  }
}

/** A difference of shares in whole hundredths, with its sign. */
const signed = (share: number) => Math.sign(share) * hundredths(Math.abs(share));

function gained(stage: Stage, band: Band): string {
  const { gainedMore, gainedFewer, gainedUnknown, fewer, moreHeads, noMore } = words.past;
  const reached = stages.reached(stage);
  const [low, mid, high] = [signed(band.low), signed(band.mid), signed(band.high)];
  if (low > 0) return gainedMore(mid, low, high, reached);
  if (high < 0) return gainedFewer(-mid, -high, -low, reached);
  return gainedUnknown(low < 0 ? fewer(-low) : noMore, high > 0 ? moreHeads(high) : noMore, reached);
}

export const past = {
  act: (act: Act): string => words.past.acts[act],
  line,
  gained,
};
