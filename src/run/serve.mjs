import { createReadStream, existsSync, realpathSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';
import { pipeline } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { createGzip } from 'node:zlib';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.pdf': 'application/pdf',
  '.png': 'image/png',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
  '.xml': 'application/xml; charset=utf-8',
};

const TEXT = /^text\/|javascript|json|xml/;

/** A small server for the built site. It gives files below `folder` and nothing else. */
export function siteServer(folder) {
  const root = realpathSync(folder);
  return createServer((request, response) => {
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { allow: 'GET, HEAD' }).end();
      return;
    }
    const found = locate(root, request.url ?? '/');
    if (found.redirect !== undefined) {
      response.writeHead(301, { location: found.redirect }).end();
      return;
    }
    const file = found.file ?? join(root, '404.html');
    const status = found.file === undefined ? 404 : 200;
    if (!existsSync(file)) {
      response
        .writeHead(404, { 'content-type': 'text/plain; charset=utf-8' })
        .end('There is no such page.\n');
      return;
    }
    const type = TYPES[extname(file)] ?? 'application/octet-stream';
    // Text goes out gzipped where the asker takes it, as any host of pages does.
    const zips = TEXT.test(type) && /\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''));
    response.writeHead(status, {
      'content-type': type,
      ...(zips ? { 'content-encoding': 'gzip' } : { 'content-length': statSync(file).size }),
      vary: 'accept-encoding',
      'cache-control': 'no-cache',
      'x-content-type-options': 'nosniff',
    });
    if (request.method === 'HEAD') response.end();
    else pipeline([createReadStream(file), ...(zips ? [createGzip()] : []), response], () => {});
  });
}

/** The file that a request means: itself, or the index of a folder (asked for with a closing slash). */
function locate(root, url) {
  let path;
  let query;
  try {
    const parsed = new URL(url, 'http://localhost');
    path = decodeURIComponent(parsed.pathname);
    query = parsed.search;
  } catch {
    return {};
  }
  if (path.includes('\0')) return {};
  const wanted = join(root, path);
  if (wanted !== root && !wanted.startsWith(root + sep)) return {};
  if (!existsSync(wanted)) return {};
  const real = realpathSync(wanted);
  if (real !== root && !real.startsWith(root + sep)) return {};
  if (!statSync(real).isDirectory()) return { file: real };
  const index = join(real, 'index.html');
  if (!existsSync(index)) return {};
  // Redirect by path alone: a path that begins with // would name another host.
  return path.endsWith('/')
    ? { file: index }
    : { redirect: `${encodeURI(path).replace(/^\/+/, '/')}/${query}` };
}

/** Listens on the port, or on the next free one. */
export function listen(server, port, tries = 50) {
  return new Promise((done, fail) => {
    server.once('error', (error) => {
      if (error.code === 'EADDRINUSE' && tries > 0) done(listen(server, port + 1, tries - 1));
      else fail(error);
    });
    server.listen(port, 'localhost', () => {
      server.removeAllListeners('error');
      done(server.address().port);
    });
  });
}

async function main() {
  const folder = join(import.meta.dirname, '../../dist');
  if (!existsSync(join(folder, 'index.html'))) {
    console.error('there is no built site in dist; run npm run build');
    process.exit(1);
  }
  const wanted = process.env.PORT ?? '4321';
  if (!/^\d{1,5}$/.test(wanted) || Number(wanted) > 65_485) {
    console.error(`PORT=${wanted} is not a port; give a number from 0 to 65485`);
    process.exit(2);
  }
  const port = await listen(siteServer(folder), Number(wanted));
  console.log(`Datestone is at http://localhost:${port}/`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await main();
