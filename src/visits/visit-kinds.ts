/** A visit is planned in good time, or called out because something does not work. */
export const VISIT_KINDS = ['planned', 'call-out'] as const;

export type VisitKind = (typeof VISIT_KINDS)[number];
