import { answer } from './find.ts';
import type { SearchReply, SearchRequest } from './protocol.ts';

const scope: { postMessage(reply: SearchReply): void } = self;

addEventListener('message', async (event: MessageEvent<SearchRequest>) => {
  scope.postMessage(await answer(event.data));
});
