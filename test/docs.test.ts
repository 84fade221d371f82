// What the pages and comments point to must be there, and vectors must say where they come from.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';

function filesUnder(path: string, ending: string): string[] {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return path.endsWith(ending) ? [path] : [];
  return readdirSync(path).flatMap((name) => filesUnder(join(path, name), ending));
}

const ownFolders = ['src', 'test', 'docs', 'examples', 'scripts', 'bench', 'bin'];
const pages = [
  ...readdirSync('.').filter((name) => name.endsWith('.md')),
  ...ownFolders.flatMap((folder) => filesUnder(folder, '.md')),
];

/** Targets of links to files, without the place in them. */
function linksOf(text: string): string[] {
  const targets = [...text.matchAll(/\]\(([^)\s]+)\)/g), ...text.matchAll(/(?:src|href)="([^"]+)"/g)].map(
    ([, target]) => target,
  );
  return targets.filter((target) => !/^(https?:|mailto:|#)/.test(target)).map((target) => target.split('#')[0]);
}

/** Paths named in code spans, as far as they lie in our folders and name one thing. */
function pathsOf(text: string): string[] {
  const spans = [...text.matchAll(/`([^`\n]+)`/g)].map(([, span]) => span);
  const path = new RegExp(`^(${ownFolders.join('|')}|\\.ci)/[\\w./-]*$`);
  return spans.filter((span) => path.test(span));
}

describe('each page', () => {
  test.each(pages)('%s points to what exists', (page) => {
    const text = readFileSync(page, 'utf8');
    const missing = [
      ...linksOf(text).filter((target) => !existsSync(join(dirname(page), target))),
      ...pathsOf(text).filter((path) => !existsSync(path)),
    ];
    expect(missing).toEqual([]);
  });

  test('is among them: the pages every newcomer looks for', () => {
    for (const page of ['README.md', 'ARCHITECTURE.md', 'CONTRIBUTING.md', 'CHANGELOG.md', 'RELEASE-CHECKLIST.md']) {
      expect(pages).toContain(page);
    }
  });

  test('of the architecture names each dependency with its reason', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8'));
    const text = readFileSync('ARCHITECTURE.md', 'utf8');
    const names = Object.keys({ ...dependencies, ...devDependencies });
    expect(names.filter((name) => !text.includes(`\`${name}\``))).toEqual([]);
  });

  test('of the architecture keeps to 300 lines', () => {
    expect(readFileSync('ARCHITECTURE.md', 'utf8').split('\n').length).toBeLessThanOrEqual(300);
  });
});

describe('the check of the pages', () => {
  test('sees links, pictures and paths', () => {
    const text = 'A [link](docs/a.md#b), <img src="docs/p.svg">, `src/base/x.ts` and [out](https://example.org).';
    expect(linksOf(text)).toEqual(['docs/a.md', 'docs/p.svg']);
    expect(pathsOf(text)).toEqual(['src/base/x.ts']);
  });
});

test('comments in the sources name vector files that exist', () => {
  const named = filesUnder('src', '.ts').flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/test\/vectors\/[\w./-]+\.json/g)].map(([path]) => ({ file, path })),
  );
  expect(named.filter(({ path }) => !existsSync(path))).toEqual([]);
});

describe('vector files', () => {
  const vectors = filesUnder('test/vectors', '.json');

  test('are there', () => {
    expect(vectors.length).toBeGreaterThan(0);
  });

  test.each(vectors)('%s says its source, when it was made and how close is close enough', (file) => {
    const text = readFileSync(file, 'utf8');
    const { source, made } = JSON.parse(text);
    expect(source, 'source').toEqual(expect.any(String));
    expect(made, 'made').toEqual(expect.any(String));
    expect(text).toMatch(/"\w*[tT]olerance\w*":/);
  });
});
