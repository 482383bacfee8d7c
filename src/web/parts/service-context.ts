import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Service } from './service.js';

export const ServiceContext = createContext<Service | undefined>(undefined);

/** Below a page that somebody is signed in at. */
export function useService(): Service {
  const service = useContext(ServiceContext);
  if (service === undefined) throw new Error('Nobody is signed in above this');
  return service;
}
