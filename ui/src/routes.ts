// Every screen and the address that opens it.

import type { Route } from './frame/router.svelte';
import ImportScreen from './import/ImportScreen.svelte';
import KeyScreen from './key/KeyScreen.svelte';
import MoreScreen from './more/MoreScreen.svelte';
import PlantingForm from './plantings/PlantingForm.svelte';
import PlantingScreen from './plantings/PlantingScreen.svelte';
import PlantingsScreen from './plantings/PlantingsScreen.svelte';
import SettingsScreen from './settings/SettingsScreen.svelte';
import WalkScreen from './walk/WalkScreen.svelte';

export const routes: readonly Route[] = [
  { pattern: '/plantings', screen: PlantingsScreen, tab: 'plantings' },
  { pattern: '/planting/new', screen: PlantingForm },
  { pattern: '/planting/:planting', screen: PlantingScreen, tab: 'plantings' },
  { pattern: '/planting/:planting/edit', screen: PlantingForm },
  { pattern: '/walk/:walk', screen: WalkScreen },
  { pattern: '/key', screen: KeyScreen },
  { pattern: '/key/:reading', screen: KeyScreen },
  { pattern: '/import', screen: ImportScreen },
  { pattern: '/settings', screen: SettingsScreen },
  { pattern: '/more', screen: MoreScreen, tab: 'more' },
];
