await navigator.serviceWorker.register('worker.js');
await navigator.serviceWorker.ready;
document.documentElement.dataset.worker = 'ready';
