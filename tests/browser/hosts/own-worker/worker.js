// Theirs: keeps everything that passes by.
self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('fetch', (event) => {
  event.respondWith((async () => {
    const kept = await caches.open('theirs');
    const answer = await fetch(event.request);
    if (event.request.method === 'GET' && answer.ok) await kept.put(event.request, answer.clone());
    return answer;
  })());
});
