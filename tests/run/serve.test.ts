import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { listen, siteServer } from '../../src/run/serve.mjs';

const outside = mkdtempSync(join(tmpdir(), 'datestone-'));
const root = join(outside, 'dist');
mkdirSync(join(root, 'about'), { recursive: true });
writeFileSync(join(outside, 'secret.txt'), 'secret');
writeFileSync(join(root, 'index.html'), 'home');
writeFileSync(join(root, 'about/index.html'), 'about');
writeFileSync(join(root, 'a b.json'), '{}');
writeFileSync(join(root, '404.html'), 'no such page');
symlinkSync(join(outside, 'secret.txt'), join(root, 'link.txt'));

const server = siteServer(root);
let port = 0;
beforeAll(async () => {
  port = await listen(server, 0);
});
afterAll(() => server.close());

/** A raw request: the path goes out as it is, dots and all. */
function get(
  path: string,
  method = 'GET',
): Promise<{ status: number; type: string; location: string; body: string }> {
  return new Promise((done, fail) => {
    request({ host: 'localhost', port, path, method }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (piece: string) => {
        body += piece;
      });
      response.on('end', () => {
        const { 'content-type': type = '', location = '' } = response.headers;
        done({ status: response.statusCode ?? 0, type, location, body });
      });
    })
      .on('error', fail)
      .end();
  });
}

describe('serving the site', () => {
  it('gives pages, files with their types, and folders with a closing slash', async () => {
    expect(await get('/')).toMatchObject({ status: 200, body: 'home', type: 'text/html; charset=utf-8' });
    expect(await get('/about/?q=1')).toMatchObject({ status: 200, body: 'about' });
    expect(await get('/about?q=1')).toMatchObject({ status: 301, location: '/about/?q=1' });
    expect(await get('/a%20b.json')).toMatchObject({ status: 200, type: 'application/json; charset=utf-8' });
    expect(await get('/', 'HEAD')).toMatchObject({ status: 200, body: '' });
    expect(await get('/', 'POST')).toMatchObject({ status: 405 });
  });

  it('answers an unknown page with the page for that, status 404', async () => {
    expect(await get('/nothing/')).toMatchObject({ status: 404, body: 'no such page' });
  });

  it.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/about/../../secret.txt',
    '/link.txt',
    '/%00',
    '/%zz',
  ])('gives nothing outside the folder: %s', async (path) => {
    const { status, body } = await get(path);
    expect(status).toBe(404);
    expect(body).not.toContain('secret');
  });

  it('never sends a visitor to another host', async () => {
    const { location } = await get('//about');
    expect(location.startsWith('//')).toBe(false);
  });

  it('takes the next port if one is taken', async () => {
    const second = siteServer(root);
    const other = await listen(second, port);
    expect(other).toBeGreaterThan(port);
    second.close();
  });
});
