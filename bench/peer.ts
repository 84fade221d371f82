// The same work done by NumPy and SciPy, where they are installed.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** One thread for everything, and none of the settings that pin a slower library than the machine could use. */
function peerEnvironment(): NodeJS.ProcessEnv {
  const environment = { ...process.env };
  delete environment.OPENBLAS_CORETYPE;
  delete environment.OPENBLAS_L2_SIZE;
  for (const name of ['OMP_NUM_THREADS', 'OPENBLAS_NUM_THREADS', 'MKL_NUM_THREADS']) environment[name] = '1';
  return environment;
}

const python = process.platform === 'win32' ? 'python' : 'python3';

/** Versions of what is there, or null with a word on standard error about what is not measured. */
export function peerVersions(): string | null {
  const code = 'import sys, numpy, scipy; print(sys.version.split()[0], numpy.__version__, scipy.__version__)';
  const asked = spawnSync(python, ['-c', code], { encoding: 'utf8' });
  if (asked.status === 0) {
    const [language, numpy, scipy] = asked.stdout.trim().split(' ');
    return `Python ${language}, NumPy ${numpy}, SciPy ${scipy}`;
  }
  process.stderr.write('Skipped: the comparison needs Python 3 with NumPy and SciPy, which are not installed here.\n');
  return null;
}

/** Runs a script of bench/peer/ and gives back the JSON it prints, with the wall time of the whole process. */
export function peerRun<Answer>(script: string, words: string[]): { answer: Answer; wallMs: number } {
  const path = fileURLToPath(new URL(`peer/${script}`, import.meta.url));
  const began = performance.now();
  const ran = spawnSync(python, [path, ...words], { encoding: 'utf8', env: peerEnvironment(), maxBuffer: 1 << 28 });
  const wallMs = performance.now() - began;
  if (ran.status !== 0) throw new Error(`${script} ended with ${ran.status}: ${ran.stderr}`);
  return { answer: JSON.parse(ran.stdout) as Answer, wallMs };
}
