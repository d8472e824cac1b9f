import { to } from '../site/link.ts';
import { readForm } from './form/form-state.ts';

/** The short form of the cover: goes on to the planning page with the inputs after `#`. */
const form = document.querySelector<HTMLFormElement>('#quick');
form?.addEventListener('submit', (event) => {
  event.preventDefault();
  location.href = `${to('/plan/')}#${readForm(form).toString()}`;
});
