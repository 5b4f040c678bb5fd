using RigControl.Mutants.Changing;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Kernel;

/// <summary>A mutant and what the tests said of it.</summary>
public sealed record Tried(Mutation Mutation, Verdict Verdict);
