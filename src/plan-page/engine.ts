import type { HouseInput } from '../../planner/house/house.ts';
import type { PlanAnswer, PlanReply, PlanRequest } from './protocol.ts';

/** Asks for plans and hands back only the answer to the latest question. A worker does the work; where none
 * can be had, the page does it itself. */
export class PlanEngine {
  readonly #base: string;
  readonly #receive: (answer: PlanAnswer) => void;
  #worker: Worker | null;
  #latest = 0;

  constructor(base: string, receive: (answer: PlanAnswer) => void) {
    this.#base = base;
    this.#receive = receive;
    this.#worker = this.#hire();
  }

  ask(input: HouseInput): void {
    this.#latest += 1;
    const request: PlanRequest = { id: this.#latest, base: this.#base, input };
    if (this.#worker === null) void this.#byHand(request);
    else {
      this.#pending = request;
      this.#worker.postMessage(request);
    }
  }

  #pending: PlanRequest | null = null;

  #hire(): Worker | null {
    try {
      const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', (event: MessageEvent<PlanReply>) => this.#take(event.data));
      worker.addEventListener('error', () => {
        this.#worker = null;
        worker.terminate();
        if (this.#pending !== null) void this.#byHand(this.#pending);
      });
      return worker;
    } catch {
      return null;
    }
  }

  #take(reply: PlanReply): void {
    if (reply.id !== this.#latest) return;
    this.#pending = null;
    this.#receive(reply);
  }

  async #byHand(request: PlanRequest): Promise<void> {
    const { answer } = await import('./answer.ts');
    this.#take({ id: request.id, ...(await answer(request.base, request.input)) });
  }
}
