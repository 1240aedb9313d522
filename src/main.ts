import { VIEWS } from './app/views.ts';
import { localStorageOf } from './store/storage.ts';
import { rememberSingleKeys } from './ui/keys.ts';
import { installTheme } from './ui/theme.ts';
import './app/shell.ts';

const storage = localStorageOf(window);
installTheme(document, storage);
rememberSingleKeys(storage);

const app = document.querySelector('bf-app');
if (app) app.views = VIEWS;
