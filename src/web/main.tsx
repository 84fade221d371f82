// Starts the page.
import './style/all.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { shopApi } from './api-client.ts';
import { showTheme } from './settings.ts';
import { ShopContext } from './shop/shop-context.ts';

showTheme();
const place = document.getElementById('page');
if (!place) throw new Error('index.html has no element "page"');
createRoot(place).render(
  <StrictMode>
    <ShopContext value={{ api: shopApi(location.origin) }}>
      <App />
    </ShopContext>
  </StrictMode>,
);

// Only what was built has a service worker; without one the page needs the server to open, and nothing else changes.
if (import.meta.env.PROD) void navigator.serviceWorker?.register('/service-worker.js').catch(() => {});
