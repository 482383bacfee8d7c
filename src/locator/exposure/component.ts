/** One component of a site, by name. */
export type Component =
  | { component: 'head-end' }
  | { component: 'port'; trunk: string }
  | {
      component: 'junction-out' | 'cable' | 'junction-in' | 'station';
      trunk: string;
      /** Of a span: the node that it feeds. */
      node: string;
    };
