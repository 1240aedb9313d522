import { localStorageOf } from '../../../src/store/keep/storage.ts';
import { rememberSingleKeys } from '../../../src/ui/keys.ts';
import { installTheme } from '../../../src/ui/look/theme.ts';
import { SPECIMEN_VIEWS } from '../ui/specimen.ts';
import '../../../src/app/shell.ts';

// The page frame around the specimens, without a run.

installTheme(document, localStorageOf(window));
rememberSingleKeys(localStorageOf(window));
const app = document.querySelector('bf-app');
if (app) Object.assign(app, { scenarioTitle: 'Cathode leach: cobalt from nickel', views: SPECIMEN_VIEWS });
