import { mount } from 'svelte';

import App from './App.svelte';
import { takeDeskSecret } from './call';
import './style/font.css';
import './style/tokens.css';
import './style/base.css';

takeDeskSecret();

const target = document.getElementById('app');
if (target) mount(App, { target });
