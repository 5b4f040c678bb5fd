using System.Reflection;
using PublicApiGenerator;
using RigControl.Contracts;
using RigControl.Model.Records;

namespace RigControl.Architecture.Tests;

/// <summary>What others build on changes only on purpose. UPDATE_DOCS=1 writes the approved files anew.</summary>
public class ApprovedTests
{
    [Theory]
    [InlineData("RigControl.Model")]
    [InlineData("RigControl.Contracts")]
    public void What_plugin_authors_rely_on_is_as_approved(string assembly)
    {
        string api = Assembly.Load(assembly).GeneratePublicApi(new ApiGeneratorOptions { IncludeAssemblyAttributes = false });
        Approve($"{assembly}.txt", api);
    }

    [Fact]
    public void Event_names_are_as_approved()
    {
        IEnumerable<string> names = typeof(EventNames).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (string)f.GetRawConstantValue()!);
        Approve("event-names.txt", string.Join('\n', names.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void The_contract_version_is_what_the_documents_say() =>
        Assert.Equal((1, 2), (ContractVersion.Major, ContractVersion.Minor));

    private static void Approve(string file, string actual)
    {
        string path = Repository.At("tests", "RigControl.Architecture.Tests", "Approved", file);
        string text = actual.ReplaceLineEndings("\n").TrimEnd() + "\n";
        if (Environment.GetEnvironmentVariable("UPDATE_DOCS") == "1")
            File.WriteAllText(path, text);
        Assert.Equal(File.ReadAllText(path), text);
    }
}
