import type { SearchReply, SearchRequest } from './protocol.ts';

/** Asks the index in a worker, so that nothing large is parsed where the page lives. The worker is hired on the
 * first question. A browser that has no module workers cannot search, and is told so. */
export class SearchEngine {
  #worker: Worker | null = null;
  readonly #take: (reply: SearchReply) => void;

  constructor(take: (reply: SearchReply) => void) {
    this.#take = take;
  }

  ask(request: SearchRequest): void {
    try {
      this.#worker ??= this.#hire(request.id);
      this.#worker.postMessage(request);
    } catch {
      this.#take({ id: request.id, failed: 'this browser has no workers' });
    }
  }

  #hire(id: number): Worker {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', (event: MessageEvent<SearchReply>) => this.#take(event.data));
    worker.addEventListener('error', () => {
      worker.terminate();
      this.#worker = null;
      this.#take({ id, failed: 'its worker did not start' });
    });
    return worker;
  }
}
