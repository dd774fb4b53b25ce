// The catalogue of words as the screens read it: `words.walk.finish` is a text in the
// language spoken, `words.walk.headsHere(3)` one with its arguments put in, and
// `words.common.stage` a table of texts by key.

import { FluentBundle, FluentNumber, FluentResource, type FluentValue, type FluentVariable } from '@fluent/bundle';

import { ago, date, dateSpan, exactMoment, hundredths, moment, money, percent } from './format';
import { ARGUMENTS, type Words } from './generated';
import { spoken, type Language } from './language.svelte';
import { capital, lower } from './letters';

type Argument = string | number | boolean;
type Message = string | Record<string, string> | ((...values: Argument[]) => string);
type Area = keyof Words;
type Pattern = Parameters<FluentBundle['formatPattern']>[0];

const loading: Record<Language, () => Promise<{ default: Record<string, string> }>> = {
  en: () => import('./en'),
  es: () => import('./es'),
};
const texts = new Map<Language, Map<string, string>>();
const domains = new Map<string, Record<string, Message>>();
let wanted: Language = spoken.language;

/** Speaks a language from when its texts are loaded. */
export async function speak(language: Language): Promise<void> {
  wanted = language;
  if (!texts.has(language)) {
    const files = Object.entries((await loading[language]()).default);
    texts.set(language, new Map(files.map(([path, text]) => [areaOf(path), text])));
  }
  // Another may have been asked for in the meantime.
  if (wanted === language) spoken.language = language;
}

/** Texts of every domain in the language spoken. */
export const words = new Proxy({} as Words, {
  get: (_, area: Area) => domain(spoken.language, area),
});

function domain(language: Language, area: Area): Record<string, Message> {
  const key = `${language} ${area}`;
  const known = domains.get(key) ?? readDomain(language, area);
  domains.set(key, known);
  return known;
}

// A domain is parsed when something of it is first shown.
function readDomain(language: Language, area: Area): Record<string, Message> {
  const text = texts.get(language)?.get(area);
  if (text === undefined) throw new Error(`the words of ${area} are not loaded`);
  const bundle = new FluentBundle(spoken.locale, { functions: FUNCTIONS, useIsolating: false });
  bundle.addResource(new FluentResource(text));
  const messages = new Map<string, Message>();
  return new Proxy<Record<string, Message>>(
    {},
    {
      get: (_, name) => {
        if (typeof name === 'symbol') return undefined;
        const known = messages.get(name);
        if (known !== undefined) return known;
        const read = readMessage(bundle, name, ARGUMENTS[area][name]);
        if (read !== undefined) messages.set(name, read);
        return read;
      },
    },
  );
}

function readMessage(bundle: FluentBundle, name: string, names: readonly string[] | undefined): Message | undefined {
  const message = bundle.getMessage(idOf(name));
  if (message === undefined) return undefined;
  const { value, attributes } = message;
  if (value === null) {
    const table = Object.entries(attributes).map(([key, text]) => [key, format(bundle, text)] as const);
    return Object.fromEntries(table);
  }
  if (names === undefined) return format(bundle, value);
  return (...values) => {
    const given = names.map((each, at) => [each, argument(values[at])] as const);
    return format(bundle, value, Object.fromEntries(given));
  };
}

// What is wrong in a text stays visible in it; a test of the catalogue finds it before.
function format(bundle: FluentBundle, pattern: Pattern, values?: Record<string, FluentVariable>): string {
  return bundle.formatPattern(pattern, values ?? null, []);
}

// Numbers are written whole where the message does not say otherwise.
function argument(value: Argument | undefined): FluentValue {
  if (typeof value === 'number') return new FluentNumber(value, { maximumFractionDigits: 0 });
  return String(value);
}

/** `headsHere` is the message `heads-here`. */
const idOf = (name: string) => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** The words of `catalog/en/set-aside.ftl` are those of `setAside`. */
function areaOf(path: string): string {
  const name = path.slice(path.lastIndexOf('/') + 1, -'.ftl'.length);
  return name.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
}

const number = (value: FluentValue | undefined) => (value instanceof FluentNumber ? value.value : Number.NaN);
const text = (value: FluentValue | undefined) => (typeof value === 'string' ? value : '');
const instant = (value: FluentValue | undefined) =>
  value instanceof FluentNumber ? value.value : Date.parse(text(value));

/** A chance (0-1) in percent. One that is not certain is never called so. */
function chance(share: number): string {
  if (share > 0 && share < 0.01) return words.common.underOne;
  if (share > 0.99 && share < 1) return words.common.overNinetyNine;
  return words.common.percent(hundredths(share));
}

/** What messages may call; `in_step.rs` has the same list. */
const FUNCTIONS: Record<string, (values: FluentValue[]) => FluentValue> = {
  AGO: ([days]) => ago(number(days)),
  CAPITAL: ([word]) => capital(text(word)),
  CHANCE: ([share]) => chance(number(share)),
  DATE: ([on, today]) => (today === undefined ? date(text(on)) : date(text(on), text(today))),
  DOLLARS: ([amount]) => money(number(amount)),
  LOWER: ([sentence]) => lower(text(sentence)),
  MOMENT: ([at]) => exactMoment(instant(at)),
  ORDINAL: ([at]) => new FluentNumber(number(at), { type: 'ordinal' } as Intl.NumberFormatOptions),
  PERCENT: ([share]) => percent(number(share)),
  RECENT: ([at]) => moment(instant(at)),
  SPAN: ([from, to, today]) => dateSpan(text(from), text(to), text(today)),
};
