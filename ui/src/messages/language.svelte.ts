// Which language the screens speak, and how a pair of catalogs is written.
//
// Messages are typed functions rather than templates of a translation library:
// most are whole sentences built from numbers, so the compiler can hold both
// languages to the same keys and arguments, nothing is parsed on the phone,
// and plurals, numbers and dates come from the platform's own Intl.

/** Languages of the screens. */
export type Language = 'en' | 'es';

/** One screen's messages in both languages, side by side to be kept in step. */
export function inBoth<T>(en: T, es: NoInfer<T>): Record<Language, T> {
  return { en, es };
}

class Spoken {
  language = $state<Language>('en');

  /** Locale for numbers and dates. Spanish as written in the United States. */
  get locale(): string {
    return this.language === 'es' ? 'es-US' : 'en-US';
  }
}

export const spoken = new Spoken();

/** Any settings' language as one that the screens speak. */
export function asLanguage(tag: string): Language {
  return tag.toLowerCase().startsWith('es') ? 'es' : 'en';
}
