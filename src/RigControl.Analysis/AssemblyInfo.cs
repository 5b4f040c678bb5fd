using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("RigControl.Analysis.Tests")]
