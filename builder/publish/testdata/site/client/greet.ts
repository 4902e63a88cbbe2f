export function greet(name: string): void { console.log(`hello ${name}`); }
