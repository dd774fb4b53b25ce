// Which language the screens speak.

/** Languages of the screens. */
export type Language = 'en' | 'es';

class Spoken {
  /** Changed by `speak` alone, once its words are loaded. */
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
