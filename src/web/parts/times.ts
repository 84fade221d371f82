// Times as a workshop says them: 24 hours, the day by its name.

const day = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short' });
const shortDay = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric' });
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });
const exact = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', second: '2-digit' });
const longDay = new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long' });

const asDate = (when: string | number | Date) => (when instanceof Date ? when : new Date(when));

/** `14:02` */
export const clockText = (when: string | number | Date): string => clock.format(asDate(when));
/** `15:48:09` */
export const exactClockText = (when: string | number | Date): string => exact.format(asDate(when));
/** `Mon 3 Nov` */
export const dayText = (when: string | number | Date): string => day.format(asDate(when)).replace(',', '');
/** `Mon 3` */
export const shortDayText = (when: string | number | Date): string => shortDay.format(asDate(when)).replace(',', '');
/** `Wednesday 12 November` */
export const longDayText = (when: string | number | Date): string => longDay.format(asDate(when)).replace(',', '');

/** The clock today, else the day with it. */
export function whenText(when: string | number | Date, now: Date): string {
  const then = asDate(when);
  return then.toDateString() === now.toDateString() ? clockText(then) : `${dayText(then)} ${clockText(then)}`;
}

/** How long ago, roughly: `today`, `yesterday`, `4 days ago`. */
export function agoText(when: string | number | Date, now: Date): string {
  const midnight = (date: Date) => new Date(date.getFullYear(), date.getMonth(), date.getDate()).getTime();
  const days = Math.round((midnight(now) - midnight(asDate(when))) / 86_400_000);
  if (days <= 0) return 'today';
  return days === 1 ? 'yesterday' : `${days} days ago`;
}

/** `7 s`, `1 min 05 s`, `2 h 10 min` */
export function durationText(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, '0')} s`;
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`;
}
