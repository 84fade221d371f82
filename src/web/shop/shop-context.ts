// The shop as every screen sees it: its server, and what this browser still keeps for it.
import { createContext, use } from 'react';
import type { ShopApi } from '../api-client.ts';

export interface Shop {
  api: ShopApi;
}

export const ShopContext = createContext<Shop | null>(null);

export function useShop(): Shop {
  const shop = use(ShopContext);
  if (!shop) throw new Error('a screen stands inside the shop');
  return shop;
}
