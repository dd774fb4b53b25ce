import { words } from './words';

type Kind = keyof typeof words.carry.kindsTitle;

export const carry = {
  get kinds(): Record<Kind, { title: string; text: string }> {
    const { kindsTitle, kindsText } = words.carry;
    const kind = (of: Kind) => ({ title: kindsTitle[of], text: kindsText[of] });
    return {
      notebook: kind('notebook'),
      heads: kind('heads'),
      plantings: kind('plantings'),
      weather: kind('weather'),
      stops: kind('stops'),
    };
  },
  made: (name: string, bytes: number): string => words.carry.madeFile(name, size(bytes)),
};

/** A size as people say it. */
function size(bytes: number): string {
  if (bytes < 1000) return words.carry.bytes(bytes);
  if (bytes < 1_000_000) return words.carry.kilobytes(bytes / 1000);
  return words.carry.megabytes(bytes / 1_000_000);
}
