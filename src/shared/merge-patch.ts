type Json = Record<string, unknown>;

/** RFC 7396 JSON merge patch: null removes, objects merge, all else replaces. */
export function mergePatch(target: Json, patch: Json): Json {
  const merged: Json = { ...target };
  for (const [key, value] of Object.entries(patch)) {
    if (value === undefined) continue;
    if (value === null) delete merged[key];
    else if (isObject(value)) merged[key] = mergePatch(asObject(merged[key]), value);
    else merged[key] = value;
  }
  return merged;
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function asObject(value: unknown): Json {
  return isObject(value) ? value : {};
}
