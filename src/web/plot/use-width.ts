import { useLayoutEffect, useState } from 'react';

/** How wide an element is now, whole px; 0 before it was measured. */
export function useWidth(box: { current: HTMLDivElement | null }): number {
  const [widthPx, setWidthPx] = useState(0);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    const measure = () => setWidthPx(Math.floor(element.getBoundingClientRect().width));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [box]);
  return widthPx;
}
