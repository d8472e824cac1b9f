import { answer } from './answer.ts';
import type { PlanReply, PlanRequest } from './protocol.ts';

/** Plans away from the page, so that typing never waits for arithmetic. */
const scope: { postMessage(reply: PlanReply): void } = self;

addEventListener('message', async (event: MessageEvent<PlanRequest>) => {
  const { id, base, input } = event.data;
  scope.postMessage({ id, ...(await answer(base, input)) });
});
