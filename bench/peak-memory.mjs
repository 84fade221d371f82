// Loaded before a command (`node --import`): writes what it took to the file named in KICKPANEL_BENCH_FILE when it ends.
import { writeFileSync } from 'node:fs';

process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  const used = { peakMb: maxRSS / 1024, cpuMs: (userCPUTime + systemCPUTime) / 1000 };
  writeFileSync(process.env.KICKPANEL_BENCH_FILE, JSON.stringify(used));
});
