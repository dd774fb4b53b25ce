import { words } from './words';

export const harvestTerms = {
  worked: (result: number, unit: string): string =>
    unit === '' ? words.harvestTerms.resultAlone(result) : words.harvestTerms.result(result, unit),
};
