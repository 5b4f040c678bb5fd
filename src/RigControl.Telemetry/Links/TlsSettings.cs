using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;

namespace RigControl.Telemetry.Links;

/// <summary>How the broker has to prove who it is, and how this program does.</summary>
internal static class TlsSettings
{
    // Purpose "TLS server" of a certificate, RFC 5280, 4.2.1.12 (from memory).
    private const string ServerAuthentication = "1.3.6.1.5.5.7.3.1";

    /// <param name="rejected">Hears why a broker was not believed.</param>
    /// <exception cref="LinkException">A certificate's file cannot be used.</exception>
    public static MqttClientTlsOptions Of(BrokerAddress address, Action<string> rejected)
    {
        X509Certificate2Collection? authorities = address.Authority is { } file ? Authorities(file) : null;
        MqttClientTlsOptions options = new()
        {
            UseTls = true,
            TargetHost = address.Host,
            CertificateValidationHandler = args =>
            {
                string? reason = ReasonAgainst(args.Certificate, args.Chain, args.SslPolicyErrors, authorities, address);
                if (reason is not null)
                    rejected(reason);
                return reason is null;
            },
        };
        if (address.Credentials.Certificate is { } certificate)
            options.ClientCertificatesProvider = new DefaultMqttCertificatesProvider(new X509Certificate2Collection(Own(certificate, address.Credentials.Key)));
        return options;
    }

    private static string? ReasonAgainst(X509Certificate? shown, X509Chain? along, SslPolicyErrors errors, X509Certificate2Collection? authorities, BrokerAddress address)
    {
        if (shown is null)
            return $"the broker {address} shows no certificate";
        using X509Certificate2 certificate = new(shown);
        // A pinned certificate is the identity itself: neither its name nor its issuer adds anything.
        if (address.Pin is { } pin)
            return IsPinned(certificate, pin) ? null : $"the broker {address} shows another certificate than the pinned one; if it was renewed, write its new SHA-256 to pin";
        if (errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
            return $"the certificate of the broker {address} was issued for another name; write the name that stands in it to broker";
        if (authorities is null)
            return errors == SslPolicyErrors.None ? null : $"no authority that this machine trusts vouches for the broker {address}; name the authority's file, or pin the certificate";
        using X509Chain chain = new();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(authorities);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        // An authority that also vouches for rigs does not let a rig pose as the broker.
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid(ServerAuthentication));
        // Intermediate authorities come along with the broker's certificate.
        foreach (X509ChainElement element in along?.ChainElements ?? Enumerable.Empty<X509ChainElement>())
            chain.ChainPolicy.ExtraStore.Add(element.Certificate);
        return chain.Build(certificate) ? null : $"the authority in {address.Authority} does not vouch for the broker {address} ({Status(chain)}); name the right authority's file";
    }

    private static string Status(X509Chain chain) => chain.ChainStatus is [var first, ..] ? first.Status.ToString() : "no reason given";

    private static bool IsPinned(X509Certificate2 certificate, string pin) =>
        CryptographicOperations.FixedTimeEquals(SHA256.HashData(certificate.RawData), Convert.FromHexString(pin.Replace(":", "", StringComparison.Ordinal)));

    private static X509Certificate2Collection Authorities(string file)
    {
        X509Certificate2Collection found = [];
        Guarded(file, () => found.ImportFromPemFile(file));
        return found.Count > 0 ? found : throw new LinkException($"{file}: holds no certificate; it has to be a PEM file");
    }

    private static X509Certificate2 Own(string file, string? key)
    {
        X509Certificate2? own = null;
        Guarded(file, () => own = X509Certificate2.CreateFromPemFile(file, key));
        return own!;
    }

    private static void Guarded(string file, Action read)
    {
        try
        {
            read();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new LinkException($"{file}: the certificate cannot be used: {e.Message}", e);
        }
    }
}
