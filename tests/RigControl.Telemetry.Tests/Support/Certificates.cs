using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>An authority of a test's own and what it vouches for, as PEM files.</summary>
internal sealed class Certificates
{
    private readonly TemporaryFolder _folder;
    private const string ForServers = "1.3.6.1.5.5.7.3.1";
    private const string ForClients = "1.3.6.1.5.5.7.3.2";

    private readonly X509Certificate2 _authority;

    /// <param name="above">Authority that vouches for this one; null where it stands by itself.</param>
    public Certificates(TemporaryFolder folder, string name, Certificates? above = null)
    {
        (_folder, Name) = (folder, name);
        using RSA key = RSA.Create(2048);
        CertificateRequest request = new($"CN={name}", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, true));
        _authority = above is null ? request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30))
            : request.Create(above._authority, DateTimeOffset.UtcNow.AddHours(-2), DateTimeOffset.UtcNow.AddDays(20), RandomNumberGenerator.GetBytes(8)).CopyWithPrivateKey(key);
        folder.Write($"{name}.pem", _authority.ExportCertificatePem());
    }

    public string Name { get; }

    public string Authority => _folder.At($"{Name}.pem");

    /// <summary>Writes a certificate and its key; returns their files and the SHA-256.</summary>
    /// <param name="along">Whether the authority's own certificate is laid beside it, as a broker shows it.</param>
    public (string Certificate, string Key, string Pin) Issue(string name, string host, bool forClients = false, bool along = false)
    {
        using RSA key = RSA.Create(2048);
        CertificateRequest request = new($"CN={name}", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        SubjectAlternativeNameBuilder names = new();
        names.AddDnsName(host);
        if (IPAddress.TryParse(host, out IPAddress? address))
            names.AddIpAddress(address);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(forClients ? ForClients : ForServers)], false));
        using X509Certificate2 issued = request.Create(_authority, DateTimeOffset.UtcNow.AddHours(-1), DateTimeOffset.UtcNow.AddDays(10), RandomNumberGenerator.GetBytes(8));
        string shown = issued.ExportCertificatePem() + (along ? "\n" + _authority.ExportCertificatePem() : "");
        return (_folder.Write($"{name}.pem", shown), _folder.Write($"{name}.key", key.ExportPkcs8PrivateKeyPem()),
            Convert.ToHexString(SHA256.HashData(issued.RawData)));
    }
}
