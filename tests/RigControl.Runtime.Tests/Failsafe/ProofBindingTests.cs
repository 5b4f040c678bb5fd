using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>What a proof is bound to: whatever could change what was seen, down to a byte.</summary>
public sealed class ProofBindingTests : IDisposable
{
    private readonly PluginFolder _folder = new();

    private static Dictionary<string, string> Board => new()
    {
        ["board"] = "rigboard", ["firmware"] = "1.4", ["limits"] = "5AF0", ["nonce"] = "0000A1B2", ["last-reset"] = "power",
    };

    public void Dispose() => _folder.Dispose();

    [Trait("Requirement", "SAF-079")]
    [Theory]
    [InlineData("firmware", "1.5", "device a firmware", false)]
    [InlineData("board", "another", "device a board", false)]
    [InlineData("limits", "5AF1", "device a limits", false)]
    [InlineData("nonce", "0000A1B3", "device a nonce", true)]
    public void Another_board_firmware_configuration_or_start_is_another_rig(string fact, string value, string changed, bool isRestart)
    {
        Dictionary<string, string> other = new(Board) { [fact] = value };
        IReadOnlyList<string> changes = ProofBinding.Changes(Bound(), Bound(board: other));
        Assert.Equal([changed], changes);
        Assert.Equal(isRestart, ProofBinding.IsRestart(changes));
    }

    [Fact]
    public void How_a_board_came_to_start_is_not_what_it_is()
    {
        Dictionary<string, string> other = new(Board) { ["last-reset"] = "watchdog" };
        Assert.Empty(ProofBinding.Changes(Bound(), Bound(board: other)));
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void A_byte_of_the_rig_file_the_article_file_or_the_calibration_is_a_change_comments_included()
    {
        Assert.Equal(["rig file"], ProofBinding.Changes(Bound(), Bound(rigText: "rig: test  # seen again")));
        Assert.Equal(["article file"], ProofBinding.Changes(Bound(), Bound(articleText: "article: small-disc\n\n")));
        Assert.Equal(["calibration"], ProofBinding.Changes(Bound(), Bound(calibration: "{ }")));
        Assert.Empty(ProofBinding.Changes(Bound(), Bound()));
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void The_host_is_bound_by_every_assembly_beside_the_program()
    {
        Assert.Equal(FolderDigest.OfAssemblies(AppContext.BaseDirectory), Bound()["host build"]);
        string[] rooms = ["RigControl.Contracts.dll", "RigControl.Documents.dll", "RigControl.Kernel.dll", "RigControl.Model.dll", "RigControl.Runtime.dll", "YamlDotNet.dll", "rigcontrol.dll"];
        foreach (string room in rooms)
            File.WriteAllText(At(room), room);
        string whole = FolderDigest.OfAssemblies(_folder.Root);
        Assert.All(rooms, room => Assert.NotEqual(whole, WithOneByteMore(room)));
        Assert.Equal(whole, FolderDigest.OfAssemblies(_folder.Root));
        File.Move(At("YamlDotNet.dll"), At("Yaml.dll"));
        Assert.NotEqual(whole, FolderDigest.OfAssemblies(_folder.Root));
    }

    [Fact]
    public void What_is_no_assembly_does_not_identify_the_host_and_a_folder_without_one_is_no_host()
    {
        File.WriteAllText(At("logbook.txt"), "yesterday");
        Assert.Contains("holds no assembly of the program", Assert.Throws<FileNotFoundException>(() => FolderDigest.OfAssemblies(_folder.Root)).Message, StringComparison.Ordinal);
        File.WriteAllText(At("a.dll"), "a");
        string before = FolderDigest.OfAssemblies(_folder.Root);
        File.WriteAllText(At("logbook.txt"), "today");
        Assert.Equal(before, FolderDigest.OfAssemblies(_folder.Root));
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void A_byte_anywhere_in_a_plugin_s_folder_is_a_change_and_so_is_another_host()
    {
        _folder.AddInterlocks();
        SortedDictionary<string, string> before = BoundByParts("host");
        Assert.Equal(["host build"], ProofBinding.Changes(before, BoundByParts("another host")));
        Directory.CreateDirectory(At("RigControl.Interlocks/data"));
        File.WriteAllText(At("RigControl.Interlocks/data/table.csv"), "1");
        SortedDictionary<string, string> more = BoundByParts("host");
        Assert.Equal(["plugin RigControl.Interlocks"], ProofBinding.Changes(before, more));
        File.WriteAllText(At("RigControl.Interlocks/data/table.csv"), "2");
        Assert.Equal(["plugin RigControl.Interlocks"], ProofBinding.Changes(more, BoundByParts("host")));
    }

    private string At(string name) => Path.Combine(_folder.Root, name);

    private string WithOneByteMore(string name)
    {
        File.AppendAllText(At(name), ".");
        string digest = FolderDigest.OfAssemblies(_folder.Root);
        File.WriteAllText(At(name), name);
        return digest;
    }

    private SortedDictionary<string, string> BoundByParts(string host) =>
        ProofBinding.Of(new TestRig().Documents, "", host, [Assert.Single(_folder.Load().Plugins).Identity], []);

    // Of a rig put together by the real code, with a board in it.
    private static SortedDictionary<string, string> Bound(
        Dictionary<string, string>? board = null, string rigText = "rig: test", string articleText = "article: small-disc\n", string calibration = "{}")
    {
        TestRig test = new() { Devices = { ["a"] = _ => new ToyDevice("x") { Facts = board ?? Board } } };
        RigDocuments documents = test.Documents with { RigText = new DocumentCopy("test", rigText), ArticleText = new DocumentCopy("small-disc", articleText) };
        using AssembledRig rig = new RigAssembler(test.Catalog, test.Time).Assemble(documents, 1);
        return ProofBinding.Of(rig, calibration);
    }
}
