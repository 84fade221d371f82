import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { catalogue } from './catalogue.ts';

describe('the catalogue of commands', () => {
  test('says of each command what the command says of itself', async () => {
    for (const entry of catalogue) {
      const { command } = await entry.load();
      expect({ name: command.name, summary: command.summary }).toEqual({ name: entry.name, summary: entry.summary });
      expect(command.usage.startsWith(entry.name)).toBe(true);
      expect(command.example).toContain(`kickpanel ${entry.name} `);
    }
  });

  test('misses no command file', () => {
    const files = readdirSync(new URL('commands', import.meta.url)).filter((name) => !name.includes('.test.'));
    expect(files.sort()).toEqual(catalogue.map(({ name }) => `${name}.ts`).sort());
  });
});
