/** How far a number can be trusted. */
export type Status = 'read' | 'memory' | 'derived' | 'assumed' | 'choice';
