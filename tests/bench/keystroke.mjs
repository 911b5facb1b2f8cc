/** Keystroke to changed diagnostics, as a client on standard input and output sees them: median and 95th percentile. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { generateProduct } from './generate.mjs';

const SERVER = join(import.meta.dirname, '..', '..', 'dist', 'server.js');
const MANY = 200;
const KEYSTROKES = Number(process.env.BENCH_KEYSTROKES ?? 40);

const sizes = process.argv.slice(2).map(Number);
for (const files of sizes.length > 0 ? sizes : [100, 1000]) await measure(files);

async function measure(files) {
  const folder = mkdtempSync(join(tmpdir(), 'plimsoll-keystroke-'));
  try {
    generateProduct(folder, files);
    writeFileSync(join(folder, 'shared.md'), sharedText());
    const client = await start(folder);
    const few = await keystrokes(client, 'part-00007.md', /( f1: )[^\n]*/, ['200 W', '11 W'], 'GEN-71');
    const many = await keystrokes(client, 'shared.md', /( {2}base: )[^\n]*/, ['200 W', '11 W'], `SHR-${MANY}`);
    report('keystroke, few dependants', { requirements: files * 10, ...few });
    report(`keystroke, ${MANY} dependants`, { requirements: files * 10, ...many });
    report('start to first diagnostics', { requirements: files * 10, milliseconds: client.startedIn });
    report('memory after edits', { requirements: files * 10, megabytes: client.megabytes() });
    client.stop();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** One figure that many requirements rest on. */
function sharedText() {
  let text = '---\nrequirements: Generated\nids: [SHR]\nfacts:\n  base: 10 W\n---\n';
  for (let number = 1; number <= MANY; number += 1)
    text += `## SHR-${number} Shared\n\nThe module shall draw no more than ${100 + number * 0.1} W (\`base\`).\n\n`;
  return text;
}

/** Types figures in turn, and waits each time until the requirement is marked, or is not any more. */
async function keystrokes(client, path, pattern, figures, id) {
  let text = client.open(path);
  const times = [];
  for (let index = 0; index < KEYSTROKES; index += 1) {
    const figure = figures[index % 2];
    text = text.replace(pattern, `$1${figure}`);
    const isBroken = index % 2 === 0;
    const before = performance.now();
    client.change(path, text);
    await client.until(
      path,
      (diagnostics) => diagnostics.some((one) => one.code === 'unmet' && one.message.startsWith(`${id}:`)) === isBroken,
    );
    times.push(performance.now() - before);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  const sorted = times.slice(4).sort((a, b) => a - b);
  const at = (share) => Number(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))].toFixed(1));
  return { medianMilliseconds: at(0.5), percentile95Milliseconds: at(0.95) };
}

async function start(folder) {
  const child = spawn(process.execPath, ['--max-old-space-size=16000', SERVER, '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const uri = (path) => pathToFileURL(join(folder, path)).href;
  const published = new Map();
  let wake = () => undefined;
  let version = 1;
  read(child.stdout, (message) => {
    if (message.method === 'textDocument/publishDiagnostics')
      published.set(message.params.uri, message.params.diagnostics);
    else if (message.id !== undefined && message.method !== undefined) send({ id: message.id, result: null });
    wake();
  });
  const send = (message) => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const began = performance.now();
  const folders = [{ uri: pathToFileURL(folder).href, name: 'bench' }];
  send({
    id: 1,
    method: 'initialize',
    params: { processId: process.pid, capabilities: {}, rootUri: null, workspaceFolders: folders },
  });
  send({ method: 'initialized', params: {} });
  while (published.size === 0)
    await new Promise((resolve) => {
      wake = resolve;
    });
  return {
    startedIn: Math.round(performance.now() - began),
    open: (path) => {
      const text = readFileSync(join(folder, path), 'utf8');
      const textDocument = { uri: uri(path), languageId: 'markdown', version, text };
      send({ method: 'textDocument/didOpen', params: { textDocument } });
      return text;
    },
    change: (path, text) => {
      version += 1;
      const params = { textDocument: { uri: uri(path), version }, contentChanges: [{ text }] };
      send({ method: 'textDocument/didChange', params });
    },
    until: async (path, fits) => {
      while (!fits(published.get(uri(path)) ?? []))
        await new Promise((resolve) => {
          wake = resolve;
        });
    },
    megabytes: () => {
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
      return Math.round(Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
    },
    stop: () => child.kill(),
  };
}

function read(stream, take) {
  let received = Buffer.alloc(0);
  stream.on('data', (data) => {
    received = Buffer.concat([received, data]);
    for (;;) {
      const end = received.indexOf('\r\n\r\n');
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/.exec(received.subarray(0, end).toString())[1]);
      if (received.length < end + 4 + length) return;
      take(JSON.parse(received.subarray(end + 4, end + 4 + length).toString()));
      received = received.subarray(end + 4 + length);
    }
  });
}

function report(figure, details) {
  process.stdout.write(`${JSON.stringify({ figure, ...details })}\n`);
}
