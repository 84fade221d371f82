// Bad news as HTTP: which status a code has, and the one form of the body.
import type { Context, TypedResponse } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { JSONParsed } from 'hono/utils/types';
import type { Issue } from '../base/result.ts';
import type { ErrorBody, ErrorStatus } from './api/errors.ts';

/** Codes whose status does not follow from where they come up. */
const statuses: Record<string, ErrorStatus> = {
  'job-unknown': 404,
  'recording-unknown': 404,
  'track-unknown': 404,
  'photo-unknown': 404,
  'reading-unknown': 404,
  'impulse-unknown': 404,
  'upload-broken-off': 400,
  'too-large': 413,
  'not-this-content': 415,
  'job-busy': 503,
  'data-busy': 503,
  'disk-full': 507,
  'data-not-allowed': 507,
  'data-not-written': 507,
  'data-damaged': 500,
  'entry-invalid': 422,
  'entry-foreign': 422,
  'entry-too-large': 413,
};

export function errorBody(issues: readonly Issue[]): ErrorBody {
  const [first] = issues;
  return { error: issues.length > 1 ? { ...first, issues: [...issues] } : { ...first } };
}

/** One type an answer for each status it may have, as the routes declare them. */
type Answer<Body, Status extends ContentfulStatusCode> = Status extends unknown
  ? Response & TypedResponse<JSONParsed<Body>, Status, 'json'>
  : never;

/** A JSON answer whose status is one of several. */
export function jsonAnswer<Body extends object, Status extends ContentfulStatusCode>(
  context: Context,
  body: Body,
  status: Status,
): Answer<Body, Status> {
  return context.json(body, status) as unknown as Answer<Body, Status>;
}

/** The answer for issues; `otherwise` holds where the first one's code has no status of its own. */
export function badNews(context: Context, issues: readonly Issue[], otherwise: ErrorStatus) {
  return jsonAnswer<ErrorBody, ErrorStatus>(context, errorBody(issues), statuses[issues[0].code] ?? otherwise);
}
