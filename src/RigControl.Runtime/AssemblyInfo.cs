using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("RigControl.Runtime.Tests")]
[assembly: InternalsVisibleTo("RigControl.Benchmarks")]
[assembly: InternalsVisibleTo("RigControl.Campaigns")]
[assembly: InternalsVisibleTo("RigControl.Campaigns.Tests")]
