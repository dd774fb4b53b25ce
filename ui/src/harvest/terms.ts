// Changes of the terms that a harvest is weighed by, of one planting or of all.

import { call } from '../call';
import type { HarvestTerm, TermsEdit } from '../contract';

/** An edit that changes nothing. */
export const noTerms: TermsEdit = { numbers: [], outlet: null, wet_grain: null, fuel: null, discounts: [] };

/** Changes what the edit names and leaves the rest; without a planting, for all. */
export const setTerms = (planting: string | null, edit: Partial<TermsEdit>) =>
  call({ op: 'set_harvest_terms', planting, edit: { ...noTerms, ...edit } });

/** Gives one number, or with null takes the user's own back. */
export const setTerm = (planting: string | null, term: HarvestTerm, value: number | null) =>
  setTerms(planting, { numbers: [{ term, value, low: null, high: null }] });
