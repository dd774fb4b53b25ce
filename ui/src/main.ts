import { mount } from 'svelte';

import App from './App.svelte';
import { takeDeskSecret } from './call';
import './style/font.css';
import './style/tokens.css';
import './style/base.css';
import './style/chart.css';

takeDeskSecret();

// The address of a new start, put into a tab that is open, only changes the fragment.
addEventListener('hashchange', () => {
  if (takeDeskSecret()) location.reload();
});

const target = document.getElementById('app');
if (target) mount(App, { target });
