import { mount } from 'svelte';

import App from './App.svelte';
import { takeDeskSecret } from './call';
import { lastAppearance } from './frame/appearance';
import { asLanguage } from './messages/language.svelte';
import { speak } from './messages/words';
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
// Nothing can be shown without words. Where they cannot be loaded, the desk was stopped
// as its page opened, and another try is as good as any message.
await speak(asLanguage(lastAppearance().language)).catch(() => setTimeout(() => location.reload(), 3000));
if (target) mount(App, { target });
