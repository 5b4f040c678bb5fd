using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("RigControl.Cli.Tests")]
[assembly: InternalsVisibleTo("RigControl.Benchmarks")]
