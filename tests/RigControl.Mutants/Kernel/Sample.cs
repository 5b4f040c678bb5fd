using RigControl.Mutants.Changing;

namespace RigControl.Mutants.Kernel;

/// <summary>Mutants of the kernel that can be compiled, chosen by a seed.</summary>
public sealed class Sample
{
    private const string Project = "src/RigControl.Kernel";

    private readonly Compiler _compiler = new(Project);

    /// <summary>Name of the kernel's assembly file.</summary>
    public string AssemblyFile => _compiler.AssemblyFile;

    /// <summary>Every place in the kernel where a mistake can be made, whether it can be compiled or not.</summary>
    public IEnumerable<Mutation> Places() => _compiler.Files.SelectMany(f => Mutator.All(f, _compiler.Tree(f)));

    /// <summary>The first mutants of the seed's order that can be compiled, with their assembly.</summary>
    /// <param name="count">How many at most.</param>
    /// <param name="seed">The same seed and sources give the same mutants.</param>
    public IEnumerable<(Mutation Mutation, byte[] Assembly)> Choose(int count, int seed)
    {
        Mutation[] order = [.. Places()];
        new Random(seed).Shuffle(order);
        return order.Select(m => (Mutation: m, Assembly: _compiler.Compile(m.File, m.Apply(Checkout.Read(m.File)))))
            .Where(m => m.Assembly is not null).Select(m => (m.Mutation, m.Assembly!)).Take(count);
    }

    /// <summary>The kernel as it is, compiled in the same way.</summary>
    public byte[] Unchanged()
    {
        string file = _compiler.Files.First();
        return _compiler.Compile(file, Checkout.Read(file)) ?? throw new InvalidOperationException($"{Project} cannot be compiled as it is");
    }
}
