// The whole count of second deliveries: those of every day are the first of them.
process.env['DELIVERIES'] = '300';
await import('./redelivered.test.js');
