// What was changed, line by line.

import type { Band, HistoryLine, NewHead, Purpose, Stage } from '../contract';
import { date, hundredths } from './format';
import { stages } from './stages';
import { headText } from './walk';
import { words } from './words';

/** A value that the notebook gives as text, in the reader's words. */
function value(field: string, text: string): string {
  const { purpose } = words.plantings;
  if (text === 'true') return words.past.yes;
  if (text === 'false') return words.past.no;
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
  return text;
}

function head(said: NewHead): string {
  const parts = [headText(said.head)];
  parts.push(...said.flags.map((flag) => words.common.flag[flag].toLowerCase()));
  if (said.note) parts.push(words.past.quoted(said.note));
  return parts.join('; ');
}

function field(line: HistoryLine & { what: 'field' }): string {
  const names: Record<string, string> = words.past.fields;
  const name = names[line.field] ?? line.field.replaceAll('_', ' ');
  if (line.to === '' && line.was === null) return name;
  const to = line.to === '' ? words.past.nothing : value(line.field, line.to);
  if (line.was === null) return words.past.fieldSet(name, to);
  return words.past.fieldChanged(name, to, value(line.field, line.was));
}

function line(of: HistoryLine): string {
  switch (of.what) {
    case 'field':
      return field(of);
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
  act(act: string): string {
    const acts: Record<string, string> = words.past.acts;
    return acts[act] ?? words.past.newerAct;
  },
  line,
  gained,
};
