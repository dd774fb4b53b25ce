import { expect, it } from 'vitest';

import { kindOf, textOf } from './chosen-file';

const file = (bytes: number[]) => ({ arrayBuffer: async () => new Uint8Array(bytes).buffer });

it('reads UTF-8 with or without a mark at its start', async () => {
  expect(await textOf(file([0xc3, 0xb1]))).toEqual({ kind: 'text', text: 'ñ' });
  expect(await textOf(file([0xef, 0xbb, 0xbf, 0x61]))).toEqual({ kind: 'text', text: 'a' });
});

it('refuses Latin-1 rather than guess', async () => {
  expect(await textOf(file([0x52, 0xed, 0x6f]))).toEqual({ kind: 'notText' });
});

it('says so when the device cannot read the file', async () => {
  expect(await textOf({ arrayBuffer: () => Promise.reject(new Error('gone')) })).toEqual({ kind: 'unreadable' });
});

it('tells a planting file from a head file by its header', () => {
  expect(kindOf('planting,walked_on,stop,reading,share\na,2026-08-01,1,boot,')).toBe('heads');
  expect(kindOf('"planting","hybrid","planted_on","purpose"\r\na,b,2026-05-01,grain')).toBe('plantings');
  expect(kindOf('planting,hybrid,walked_on,stop,reading,share')).toBe('heads');
  expect(kindOf('something,else')).toBe('heads');
  expect(kindOf('')).toBe('heads');
});
