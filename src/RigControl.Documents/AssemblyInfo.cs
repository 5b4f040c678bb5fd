using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("RigControl.Documents.Tests")]
