import { show } from '../markup/dom.ts';
import { type Child, h } from '../markup/h.ts';
import { to } from '../site/link.ts';

/** The line that says whether this site is on the device, and from when. Nothing is saved unasked; a newer
 * version waits until the person takes it. */
const line = document.getElementById('offline-line');
if (line !== null && 'serviceWorker' in navigator && window.isSecureContext) void start(line);

async function start(host: HTMLElement): Promise<void> {
  const { serviceWorker } = navigator;
  const say = (...children: Child[]): void => {
    host.hidden = false;
    show(host, [h('p', { class: 'small', role: 'status' }, ...children)]);
  };
  const button = (words: string, act: () => void): void => {
    const made = document.createElement('button');
    made.type = 'button';
    made.className = 'plain';
    made.textContent = words;
    made.addEventListener('click', act);
    host.append(made);
  };

  async function saved(): Promise<void> {
    const response = await fetch(to('/offline.json'));
    // The device may have thrown away what was kept.
    if (!response.ok) return unsaved();
    const { revision, saved: when }: { revision: string; saved: string } = await response.json();
    const date = new Date(when).toLocaleDateString('en-US', { dateStyle: 'medium' });
    say(
      `Saved for offline: version ${revision.slice(0, 8)}, ${date}.`,
      navigator.onLine ? '' : ' No signal now; this is the saved version.',
    );
  }

  async function unsaved(): Promise<void> {
    const { bytes, files }: { bytes: number; files: number } = await (
      await fetch(to('/offline-size.json'))
    ).json();
    say('Not saved on this device. Without a signal it would not open.');
    button(`Save for offline: ${files} files, ${Math.ceil(bytes / 1e6)} MB`, () => void save());
  }

  async function save(): Promise<void> {
    say('Saving …');
    void navigator.storage?.persist?.();
    try {
      const registration = await serviceWorker.register(to('/sw.js'), { scope: to('/') });
      // Kept already, but this page was loaded past it: loaded again, it is the kept one.
      if (registration.active !== null && registration.installing === null) location.reload();
      else watch(registration);
    } catch {
      failed();
    }
  }

  function failed(): void {
    say('It could not be saved. Nothing was lost; try again where there is a signal.');
    button('Try again', () => void save());
  }

  /** Follows a version that is being fetched, and offers one that waits. */
  function watch(registration: ServiceWorkerRegistration): void {
    const offer = (waiting: ServiceWorker): void => {
      say('A newer version is on this device. What is open stays as it is until you take it.');
      button('Use the newer version', () => waiting.postMessage('accept'));
    };
    const follow = (coming: ServiceWorker): void => {
      const first = registration.active === null;
      coming.addEventListener('statechange', () => {
        if (coming.state === 'installed' && !first) offer(coming);
        if (coming.state === 'activated' && first) void saved();
        if (coming.state === 'redundant' && first) failed();
      });
    };
    if (registration.waiting !== null) offer(registration.waiting);
    if (registration.installing !== null) follow(registration.installing);
    registration.addEventListener('updatefound', () => {
      if (registration.installing !== null) follow(registration.installing);
    });
  }

  serviceWorker.addEventListener('message', ({ data }: MessageEvent<{ saving?: number; of?: number }>) => {
    if (data.saving !== undefined && serviceWorker.controller === null)
      say(`Saving: ${data.saving} of ${data.of} files.`);
  });
  const controlled = serviceWorker.controller !== null;
  serviceWorker.addEventListener('controllerchange', () => {
    if (controlled) location.reload();
  });
  for (const type of ['online', 'offline'])
    window.addEventListener(type, () => {
      if (serviceWorker.controller !== null) void saved();
    });

  const registration = await serviceWorker.getRegistration(to('/'));
  if (registration === undefined || serviceWorker.controller === null) await unsaved();
  else {
    await saved();
    watch(registration);
  }
}
