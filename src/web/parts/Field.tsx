import { type ReactNode, useId } from 'react';

interface FieldProps {
  label: string;
  hint?: ReactNode;
  /** What is wrong with what was typed; it stays as typed. */
  wrong?: string | undefined;
  children: (given: { id: string; 'aria-describedby': string | undefined; 'aria-invalid': boolean }) => ReactNode;
}

/** A labelled input with its hint and, where it is wrong, with what is accepted. */
export function Field({ label, hint, wrong, children }: FieldProps) {
  const id = useId();
  const describes = [hint ? `${id}-hint` : '', wrong ? `${id}-wrong` : ''].filter(Boolean).join(' ');
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {children({ id, 'aria-describedby': describes || undefined, 'aria-invalid': wrong !== undefined })}
      {hint ? (
        <span className="hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {wrong ? (
        <span className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      ) : null}
    </div>
  );
}
