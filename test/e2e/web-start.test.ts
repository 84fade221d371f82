// What `npm start` runs after it has built: the app, at the address that it says.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';

test('the start script serves the app, says where, and names the command line', async () => {
  const data = mkdtempSync(join(tmpdir(), 'kickpanel-start-'));
  const words = ['node_modules/tsx/dist/cli.mjs', 'scripts/start.ts', '--port', '0', '--data', data];
  const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] });
  try {
    let said = '';
    child.stdout.setEncoding('utf8');
    for await (const piece of child.stdout) {
      said += piece;
      if (said.includes('Ctrl-C')) break;
    }
    expect(said).toContain('bin/kickpanel --help');
    const url = /Kickpanel is at (http:\/\/\S+)/.exec(said)?.[1] ?? '';
    const page = await fetch(url);
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('<title>Kickpanel</title>');
  } finally {
    child.kill('SIGTERM');
    if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    rmSync(data, { recursive: true, force: true });
  }
  expect(child.exitCode).toBe(0);
}, 60_000);
