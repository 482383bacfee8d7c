/** The areas that an API token may be limited to; each to read, or to read and write. */
export const AREAS = [
  'people',
  'sites',
  'tickets',
  'visits',
  'contracts',
  'locate',
  'passes',
  'audit',
] as const;

export type Area = (typeof AREAS)[number];

export type Scope = `${Area}:${'read' | 'write'}`;

export const SCOPES: readonly Scope[] = AREAS.flatMap((area): Scope[] => [
  `${area}:read`,
  `${area}:write`,
]);

/** Whether scopes allow a method in an area. Writing includes reading. */
export function scopesAllow(scopes: readonly string[], area: Area, writes: boolean): boolean {
  return scopes.includes(`${area}:write`) || (!writes && scopes.includes(`${area}:read`));
}
