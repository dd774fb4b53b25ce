// What exactly is wrong with what was given: the code that Rust sends is the message's
// name, and its other fields are the arguments by name.

import type { Detail } from '../contract';
import { ARGUMENTS } from './generated';
import { words } from './words';

type Field = string | number;
type Message = string | ((...values: Field[]) => string);

export function detail(of: Detail): string {
  const name = of.code.replace(/_(.)/g, (_, letter: string) => letter.toUpperCase());
  const messages = words.details as unknown as Record<string, Message>;
  const message = messages[name]!;
  if (typeof message === 'string') return message;
  const fields = of as unknown as Record<string, Field>;
  const names: readonly string[] = ARGUMENTS.details[name] ?? [];
  return message(...names.map((each) => fields[each]!));
}
