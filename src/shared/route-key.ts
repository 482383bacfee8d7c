/** What a route is called: its method, where HEAD is GET, and its path with its parameters' names. */
export function routeKey(method: string, path: string): string {
  return `${method === 'HEAD' ? 'GET' : method} ${path}`;
}
