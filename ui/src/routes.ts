// Every screen and the address that opens it.

import type { Route } from './frame/router.svelte';
import ArchiveInScreen from './carry/ArchiveInScreen.svelte';
import FilesOutScreen from './carry/FilesOutScreen.svelte';
import SheetScreen from './carry/SheetScreen.svelte';
import CrewScreen from './crew/CrewScreen.svelte';
import DuplicatesScreen from './crew/DuplicatesScreen.svelte';
import FileScreen from './crew/FileScreen.svelte';
import InviteScreen from './crew/InviteScreen.svelte';
import JoinScreen from './crew/JoinScreen.svelte';
import BasisScreen from './basis/BasisScreen.svelte';
import HeatSetForm from './basis/HeatSetForm.svelte';
import HeatSetsScreen from './basis/HeatSetsScreen.svelte';
import HybridScreen from './basis/HybridScreen.svelte';
import HybridsScreen from './basis/HybridsScreen.svelte';
import StationPlaceScreen from './basis/StationPlaceScreen.svelte';
import FortnightScreen from './fortnight/FortnightScreen.svelte';
import GrainScreen from './harvest/GrainScreen.svelte';
import GroundScreen from './harvest/GroundScreen.svelte';
import HarvestScreen from './harvest/HarvestScreen.svelte';
import OrderScreen from './harvest/OrderScreen.svelte';
import ReadingScreen from './harvest/ReadingScreen.svelte';
import StandingScreen from './harvest/StandingScreen.svelte';
import TermsScreen from './harvest/TermsScreen.svelte';
import ImportScreen from './import/ImportScreen.svelte';
import KeyScreen from './key/KeyScreen.svelte';
import MoreScreen from './more/MoreScreen.svelte';
import OutlookScreen from './outlook/OutlookScreen.svelte';
import PhotoScreen from './photos/PhotoScreen.svelte';
import PhotosScreen from './photos/PhotosScreen.svelte';
import PhotoStorageScreen from './photos/PhotoStorageScreen.svelte';
import OutlineFileScreen from './place/OutlineFileScreen.svelte';
import StopsScreen from './place/StopsScreen.svelte';
import CompareScreen from './past/CompareScreen.svelte';
import HistoryScreen from './past/HistoryScreen.svelte';
import PlantingForm from './plantings/PlantingForm.svelte';
import PlantingScreen from './plantings/PlantingScreen.svelte';
import PlantingsScreen from './plantings/PlantingsScreen.svelte';
import BackupScreen from './safekeeping/BackupScreen.svelte';
import SearchScreen from './search/SearchScreen.svelte';
import SettingsScreen from './settings/SettingsScreen.svelte';
import WalkScreen from './walk/WalkScreen.svelte';
import StationsScreen from './weather/StationsScreen.svelte';
import TypedDayScreen from './weather/TypedDayScreen.svelte';
import WeatherFileScreen from './weather/WeatherFileScreen.svelte';

export const routes: readonly Route[] = [
  { pattern: '/plantings', screen: PlantingsScreen, tab: 'plantings' },
  { pattern: '/planting/new', screen: PlantingForm },
  { pattern: '/planting/:planting', screen: PlantingScreen, tab: 'plantings' },
  { pattern: '/planting/:planting/edit', screen: PlantingForm },
  { pattern: '/planting/:planting/outlook', screen: OutlookScreen, tab: 'plantings' },
  { pattern: '/planting/:planting/stops', screen: StopsScreen },
  { pattern: '/planting/:planting/photos', screen: PhotosScreen },
  { pattern: '/photo/:planting/:photo', screen: PhotoScreen },
  { pattern: '/photos/storage', screen: PhotoStorageScreen },
  { pattern: '/fields/file', screen: OutlineFileScreen },
  { pattern: '/planting/:planting/harvest', screen: HarvestScreen, tab: 'plantings' },
  { pattern: '/planting/:planting/harvest/moisture', screen: ReadingScreen },
  { pattern: '/planting/:planting/harvest/ground', screen: GroundScreen },
  { pattern: '/planting/:planting/harvest/standing', screen: StandingScreen },
  { pattern: '/planting/:planting/harvest/terms', screen: TermsScreen },
  { pattern: '/planting/:planting/harvest/grain', screen: GrainScreen },
  { pattern: '/harvest', screen: OrderScreen, tab: 'more' },
  { pattern: '/harvest/terms', screen: TermsScreen },
  { pattern: '/harvest/grain', screen: GrainScreen },
  { pattern: '/planting/:planting/basis', screen: BasisScreen },
  { pattern: '/hybrids', screen: HybridsScreen, tab: 'more' },
  { pattern: '/hybrid/:hybrid', screen: HybridScreen },
  { pattern: '/heat-sets', screen: HeatSetsScreen, tab: 'more' },
  { pattern: '/heat-set/new', screen: HeatSetForm },
  { pattern: '/heat-set/:set', screen: HeatSetForm },
  { pattern: '/weather/place/:station', screen: StationPlaceScreen },
  { pattern: '/fortnight', screen: FortnightScreen, tab: 'fortnight' },
  { pattern: '/walk/:walk', screen: WalkScreen },
  { pattern: '/key', screen: KeyScreen },
  { pattern: '/key/:reading', screen: KeyScreen },
  { pattern: '/import', screen: ImportScreen },
  { pattern: '/weather', screen: StationsScreen, tab: 'more' },
  { pattern: '/weather/file', screen: WeatherFileScreen },
  { pattern: '/weather/day', screen: TypedDayScreen },
  { pattern: '/planting/:planting/sheet', screen: SheetScreen },
  { pattern: '/planting/:planting/history', screen: HistoryScreen, tab: 'plantings' },
  { pattern: '/planting/:planting/compare', screen: CompareScreen, tab: 'plantings' },
  { pattern: '/files', screen: FilesOutScreen },
  { pattern: '/archive', screen: ArchiveInScreen },
  { pattern: '/search', screen: SearchScreen, tab: 'more' },
  { pattern: '/crew', screen: CrewScreen, tab: 'more' },
  { pattern: '/crew/join', screen: JoinScreen },
  { pattern: '/crew/invite', screen: InviteScreen },
  { pattern: '/crew/file', screen: FileScreen },
  { pattern: '/duplicates', screen: DuplicatesScreen },
  { pattern: '/settings', screen: SettingsScreen },
  { pattern: '/backup', screen: BackupScreen },
  { pattern: '/more', screen: MoreScreen, tab: 'more' },
];
