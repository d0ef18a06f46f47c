// The whole count of orders: those of every day are the first of them.
process.env['ORDERS'] = '3000';
await import('./orders.test.js');
