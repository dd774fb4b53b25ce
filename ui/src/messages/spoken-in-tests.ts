// Imported by tests that read what the screens say: both languages are loaded, and
// English is spoken where a test does not choose.

import { speak } from './words';

await speak('es');
await speak('en');
